#include "tests/lookalikes/pair_reader.hpp"

#include "core/table/reader.hpp"

#include <cstdlib>
#include <tuple>

namespace soot::judges {
namespace {

// "word on 3" is {word, 3}.
std::pair<std::string, int> split_cylinder(const std::string& text) {
  const std::size_t at = text.find(" on ");
  if (at == std::string::npos) return {text, 0};
  return {text.substr(0, at), std::atoi(text.c_str() + at + 4)};
}

SuspectName read_suspect(const std::string& text) {
  const auto [name, cylinder] = split_cylinder(text);
  const std::size_t colon = name.find(':');
  return {name.substr(0, colon), colon == std::string::npos ? "" : name.substr(colon + 1),
          cylinder};
}

SeenLine read_line(std::string text) {
  SeenLine line;
  if (text.starts_with("not ")) {
    line.present = false;
    text.erase(0, 4);
  }
  const std::size_t equals = text.find(" = ");
  if (equals != std::string::npos) {
    line.value = text.substr(equals + 3);
    text.erase(equals);
  }
  std::tie(line.id, line.cylinder) = split_cylinder(text);
  return line;
}

std::vector<SeenLine> read_lines(Reader& reader, std::string_view key) {
  std::vector<SeenLine> lines;
  for (const std::string& text : reader.texts(key))
    lines.push_back(read_line(text));
  if (lines.empty()) reader.complain(key, std::string{key} + " shows nothing");
  return lines;
}

Lookalikes read_pair(Reader& reader) {
  Lookalikes pair;
  pair.one = read_suspect(reader.needed_text("one"));
  pair.other = read_suspect(reader.needed_text("other"));
  pair.needs = reader.texts("needs");
  pair.told = read_lines(reader, "told");
  for (Reader& entry : reader.tables("parted-by")) {
    pair.parted_by.push_back(
        {entry.texts("checks"), read_lines(entry, "one"), read_lines(entry, "other")});
    entry.done();
  }
  if (pair.parted_by.empty()) reader.complain("parted-by", "no check parts them");
  reader.done();
  return pair;
}

class JobMaker {
 public:
  explicit JobMaker(const Engine& engine) : engine_(engine) { job_.family = engine.family.id; }

  void take(const SeenLine& line) {
    if (line.value.empty()) {
      const Symptom* symptom = find_id(engine_.knowledge.symptoms, line.id);
      each(line, symptom != nullptr && symptom->scope == Scope::cylinder,
           [&](int cylinder) { observe(line, cylinder); });
    } else {
      const Quantity* quantity = find_id(engine_.knowledge.quantities, line.id);
      each(line, quantity != nullptr && quantity->scope == Scope::cylinder,
           [&](int cylinder) { measure(line, cylinder); });
    }
  }

  Job finish() { return std::move(job_); }

 private:
  template <class Enter>
  void each(const SeenLine& line, bool of_cylinder, const Enter& enter) {
    if (!of_cylinder || line.cylinder != 0) return enter(line.cylinder);
    for (int cylinder = 1; cylinder <= engine_.family.cylinders; ++cylinder)
      enter(cylinder);
  }

  void observe(const SeenLine& line, int cylinder) {
    Observation& seen = job_.observations.emplace_back();
    seen.symptom = line.id;
    seen.cylinder = cylinder;
    seen.present = line.present;
    seen.line = ++count_;
  }

  void measure(const SeenLine& line, int cylinder) {
    const Result<Measure> value = read_measure(line.value);
    ReadingTaken& taken = job_.readings.emplace_back();
    taken.quantity = line.id;
    taken.cylinder = cylinder;
    if (value) taken.value = *value;
    taken.line = ++count_;
  }

  const Engine& engine_;
  Job job_;
  long count_ = 0;
};

}  // namespace

Result<std::vector<Lookalikes>> load_lookalikes(const std::filesystem::path& path) {
  Result<Document> document = Document::load(path);
  if (!document) return pass_on(document);
  Reader root = document->root();
  std::vector<Lookalikes> pairs;
  for (Reader& entry : root.tables("pair"))
    pairs.push_back(read_pair(entry));
  root.done();
  if (has_errors(document->problems())) return tl::unexpected(document->problems());
  return pairs;
}

Job job_of(const Engine& engine, const std::vector<std::vector<SeenLine>>& seen) {
  JobMaker maker(engine);
  for (const std::vector<SeenLine>& lines : seen)
    for (const SeenLine& line : lines)
      maker.take(line);
  return maker.finish();
}

}  // namespace soot::judges
