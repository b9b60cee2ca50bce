#include "core/base/build_id.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <cstring>
#include <link.h>
#include <string_view>

namespace soot {
namespace {

constexpr std::size_t padded(std::size_t size) {
  return (size + 3) & ~std::size_t{3};
}

// Notes stand one behind the other: sizes and type, the owner's name, the content.
std::string find_note(const char* at, std::size_t size) {
  const std::string_view owner{"GNU", 4};  // its end counts
  ElfW(Nhdr) note;
  while (size >= sizeof note) {
    std::memcpy(&note, at, sizeof note);
    const std::size_t whole = sizeof note + padded(note.n_namesz) + padded(note.n_descsz);
    if (whole > size) break;
    const char* name = at + sizeof note;
    if (note.n_type == NT_GNU_BUILD_ID && std::string_view{name, note.n_namesz} == owner) {
      std::string id;
      const char* content = name + padded(note.n_namesz);
      for (std::size_t i = 0; i < note.n_descsz; ++i)
        id += fmt::format("{:02x}", static_cast<unsigned char>(content[i]));
      return id;
    }
    at += whole;
    size -= whole;
  }
  return "";
}

// The first object told is the program itself.
int look(dl_phdr_info* object, std::size_t, void* found) {
  for (std::size_t i = 0; i < object->dlpi_phnum; ++i) {
    const ElfW(Phdr)& part = object->dlpi_phdr[i];
    if (part.p_type != PT_NOTE) continue;
    const char* at = reinterpret_cast<const char*>(object->dlpi_addr + part.p_vaddr);
    std::string& id = *static_cast<std::string*>(found);
    if (id.empty()) id = find_note(at, part.p_memsz);
  }
  return 1;
}

}  // namespace

std::string build_id() {
  std::string id;
  dl_iterate_phdr(look, &id);
  return id;
}

}  // namespace soot
