#include "core/knowledge/loader.hpp"

#include "core/knowledge/cross_check.hpp"
#include "core/knowledge/entry_readers.hpp"
#include "core/knowledge/gate_check.hpp"

#include <algorithm>
#include <vector>

namespace soot {
namespace {

Problem folder_problem(const std::filesystem::path& folder, std::string words) {
  Problem problem = make_problem(Kind::data, "{}", words);
  problem.place.file = folder.string();
  return problem;
}

Result<std::vector<std::filesystem::path>> toml_files(const std::filesystem::path& folder) {
  std::error_code error;
  if (!std::filesystem::is_directory(folder, error))
    return tl::unexpected(Problems{folder_problem(folder, "no such folder of knowledge")});
  std::vector<std::filesystem::path> files;
  std::filesystem::recursive_directory_iterator walk(folder, error), end;
  for (; !error && walk != end; walk.increment(error))
    if (walk->path().extension() == ".toml" && walk->path().filename() != "scale.toml")
      files.push_back(walk->path());
  if (error)
    return tl::unexpected(Problems{folder_problem(folder, "cannot be read: " + error.message())});
  std::sort(files.begin(), files.end());
  return files;
}

void append(Problems& all, const Problems& more) {
  all.insert(all.end(), more.begin(), more.end());
}

}  // namespace

void read_entries(Reader& root, const Scale& scale, Knowledge& knowledge) {
  for (Reader& entry : root.tables("cause"))
    knowledge.causes.push_back(read_cause(entry, scale));
  for (Reader& entry : root.tables("symptom"))
    knowledge.symptoms.push_back(read_symptom(entry, scale));
  for (Reader& entry : root.tables("quantity"))
    knowledge.quantities.push_back(read_quantity(entry));
  for (Reader& entry : root.tables("term"))
    knowledge.terms.push_back(read_term(entry));
  for (Reader& entry : root.tables("check"))
    knowledge.checks.push_back(read_check(entry));
  for (Reader& entry : root.tables("correction"))
    knowledge.corrections.push_back(read_correction(entry, scale));
  for (Reader& entry : root.tables("procedure"))
    knowledge.procedures.push_back(read_procedure(entry));
  for (Reader& entry : root.tables("caution"))
    knowledge.cautions.push_back(read_caution(entry));
  for (Reader& entry : root.tables("gate"))
    knowledge.gates.push_back(read_gate(entry));
  for (Reader& entry : root.tables("cover"))
    knowledge.covers.push_back(read_cover(entry));
  for (Reader& entry : root.tables("tool"))
    knowledge.tools.push_back(read_tool(entry));
  for (Reader& entry : root.tables("source"))
    knowledge.sources.push_back(read_citation(entry));
}

Result<LoadedKnowledge> load_knowledge(const std::filesystem::path& folder) {
  const Result<std::vector<std::filesystem::path>> files = toml_files(folder);
  if (!files) return pass_on(files);

  LoadedKnowledge loaded;
  Problems problems;
  // Without the words of the scale every entry would be wrong: its faults are told alone.
  if (Result<Document> document = Document::load(folder / "scale.toml")) {
    loaded.scale = read_scale(document->root());
    problems = document->problems();
    if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  } else {
    return pass_on(document);
  }
  loaded.knowledge.history_prior = loaded.scale.history_prior;
  for (const std::filesystem::path& file : *files) {
    Result<Document> document = Document::load(file);
    if (!document) {
      append(problems, document.error());
      continue;
    }
    Reader root = document->root();
    read_entries(root, loaded.scale, loaded.knowledge);
    root.done();
    append(problems, document->problems());
  }
  append(problems, cross_check(loaded.knowledge));
  append(problems, gate_faults(loaded.knowledge));
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  return loaded;
}

}  // namespace soot
