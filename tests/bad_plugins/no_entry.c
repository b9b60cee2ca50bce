/* A shared library, but no plugin. */
int answer(void);
int answer(void) {
  return 42;
}
