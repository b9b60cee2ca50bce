#include "tests/judges/code_map.hpp"

#include "core/table/reader.hpp"

namespace soot::judges {
namespace {

MappedId read_mapped(std::string word) {
  MappedId out;
  if (word.starts_with("not ")) {
    out.denied = true;
    word.erase(0, 4);
  }
  const std::size_t colon = word.find(':');
  out.id = word.substr(0, colon);
  if (colon != std::string::npos) out.direction = word.substr(colon + 1);
  return out;
}

void read_ids(Reader& reader, const std::string& key, Mapped& mapped) {
  for (const std::string& word : reader.texts(key))
    mapped.ids.push_back(read_mapped(word));
  if (mapped.ids.size() > most_ids)
    reader.complain(
        key, fmt::format("{} has {} ids (expected at most {})", key, mapped.ids.size(), most_ids));
}

Mapped read_code(Reader& kind, const std::string& code) {
  Mapped mapped;
  mapped.place = kind.place_of(code);
  if (kind.is_text(code)) {
    mapped.left_out = kind.needed_text(code);
  } else if (kind.is_table(code)) {
    Reader entry = *kind.table(code);
    mapped.history = entry.text("history").value_or("");
    mapped.reading = entry.text("reading").value_or("");
    mapped.value = entry.text("value").value_or("");
    read_ids(entry, "ids", mapped);
    entry.done();
    if (mapped.history.empty() && mapped.reading.empty() && mapped.ids.empty())
      kind.complain(code, code + " maps to nothing (expected ids, history or reading)");
  } else {
    read_ids(kind, code, mapped);
    if (mapped.ids.empty())
      kind.complain(code, code + " maps to nothing (expected ids, or why not as text)");
  }
  return mapped;
}

}  // namespace

Result<CodeMap> load_code_map(const std::filesystem::path& path) {
  Result<Document> document = Document::load(path);
  if (!document) return pass_on(document);
  CodeMap map;
  Reader root = document->root();
  for (const std::string& kind : root.keys()) {
    if (!root.is_table(kind)) {
      root.complain(kind, kind + " is no table of codes");
      continue;
    }
    Reader table = *root.table(kind);
    for (const std::string& code : table.keys())
      map[kind][code] = read_code(table, code);
  }
  root.done();
  if (has_errors(document->problems())) return tl::unexpected(document->problems());
  return map;
}

}  // namespace soot::judges
