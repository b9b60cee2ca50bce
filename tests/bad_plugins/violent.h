/* What ends or hangs a process, written so that no compiler sees through it. */
#pragma once

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static volatile int go_on = 1;

static inline void crash(void) {
  volatile int* volatile nowhere = NULL;
  *nowhere = 1;
}

static inline void loop(void) {
  while (go_on) {
  }
}

static inline void pause_for_ever(void) {
  while (go_on)
    pause();
}

static inline int overflow(int depth) {
  volatile char frame[4096];
  frame[0] = (char)depth;
  return go_on ? overflow(depth + 1) + frame[0] : 0;
}

static inline void eat(void) {
  while (go_on)
    memset(malloc(1 << 20), 1, 1 << 20);
}
