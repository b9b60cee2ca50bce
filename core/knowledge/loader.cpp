#include "core/knowledge/loader.hpp"

#include "core/base/parallel.hpp"
#include "core/knowledge/cross_check.hpp"
#include "core/knowledge/entry_readers.hpp"
#include "core/knowledge/gate_check.hpp"
#include "core/knowledge/knowledge_files.hpp"

#include <fmt/format.h>

#include <vector>

namespace soot {
namespace {

Problem folder_problem(const std::filesystem::path& folder, std::string words) {
  Problem problem = make_problem(Kind::data, "{}", words);
  problem.place.file = folder.string();
  return problem;
}

Result<std::vector<std::filesystem::path>> entry_files(const std::filesystem::path& folder) {
  std::error_code error;
  if (!std::filesystem::is_directory(folder, error))
    return tl::unexpected(Problems{folder_problem(folder, "no such folder of knowledge")});
  std::vector<std::filesystem::path> files = knowledge_files(folder, error);
  if (error)
    return tl::unexpected(Problems{folder_problem(folder, "cannot be read: " + error.message())});
  std::erase_if(files, [](const auto& file) { return file.filename() == "scale.toml"; });
  return files;
}

void append(Problems& all, const Problems& more) {
  all.insert(all.end(), more.begin(), more.end());
}

/// What one file came to.
struct Part {
  Knowledge knowledge;
  Problems problems;
  bool is_lost = false;  ///< it could not be read as TOML at all
};

Part read_part(const std::filesystem::path& file, const Scale& scale) {
  Part part;
  Result<Document> document = Document::load(file);
  if (!document) {
    part.problems = document.error();
    part.is_lost = true;
    return part;
  }
  Reader root = document->root();
  if (root.keys().empty())
    root.complain("", "there is no entry in it (expected at least one: is the file whole?)");
  read_entries(root, scale, part.knowledge);
  root.done();
  part.problems = document->problems();
  return part;
}

// Side by side: parsing takes most of a start, and the person waits for it.
std::vector<Part> read_parts(const std::vector<std::filesystem::path>& files, const Scale& scale) {
  std::vector<Part> parts(files.size());
  in_parallel(files.size(), [&](std::size_t i) { parts[i] = read_part(files[i], scale); });
  return parts;
}

// Kinds of entry without which nothing can be said of any engine.
void complain_of_gaps(const std::filesystem::path& folder, const Knowledge& knowledge,
                      Problems& problems) {
  const std::pair<std::string_view, bool> kinds[] = {{"term", knowledge.terms.empty()},
                                                     {"symptom", knowledge.symptoms.empty()},
                                                     {"cause", knowledge.causes.empty()},
                                                     {"check", knowledge.checks.empty()},
                                                     {"correction", knowledge.corrections.empty()}};
  for (const auto& [kind, is_missing] : kinds)
    if (is_missing)
      problems.push_back(folder_problem(
          folder,
          fmt::format("there is no [[{}]] in it (expected some: is the folder whole?)", kind)));
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
  for (Reader& entry : root.tables("feature"))
    knowledge.features.push_back(read_feature(entry));
  for (Reader& entry : root.tables("same"))
    knowledge.synonyms.push_back(read_synonyms(entry));
  for (Reader& entry : root.tables("source"))
    knowledge.sources.push_back(read_citation(entry));
}

void add_entries(Knowledge& all, const Knowledge& more) {
  all.terms.append(more.terms);
  all.symptoms.append(more.symptoms);
  all.quantities.append(more.quantities);
  all.causes.append(more.causes);
  all.checks.append(more.checks);
  all.corrections.append(more.corrections);
  all.procedures.append(more.procedures);
  all.cautions.append(more.cautions);
  all.gates.append(more.gates);
  all.covers.append(more.covers);
  all.tools.append(more.tools);
  all.features.append(more.features);
  all.synonyms.append(more.synonyms);
  all.sources.append(more.sources);
}

Result<LoadedKnowledge> load_knowledge(const std::filesystem::path& folder) {
  const Result<std::vector<std::filesystem::path>> files = entry_files(folder);
  if (!files) return pass_on(files);

  LoadedKnowledge loaded;
  Problems problems;
  Result<Document> document = Document::load(folder / "scale.toml");
  if (!document) return pass_on(document);
  loaded.scale = read_scale(document->root());
  problems = document->problems();
  // Without the words of the scale every entry would be wrong: then its faults are told alone.
  if (!loaded.scale.is_whole() && has_errors(problems))
    return tl::unexpected<Problems>(std::move(problems));

  loaded.knowledge.history_prior = loaded.scale.history_prior;
  bool is_whole = true;
  for (const Part& part : read_parts(*files, loaded.scale)) {
    is_whole = is_whole && !part.is_lost;
    add_entries(loaded.knowledge, part.knowledge);
    append(problems, part.problems);
  }
  // Every word of a lost file would be missed by all the others.
  if (is_whole) {
    complain_of_gaps(folder, loaded.knowledge, problems);
    append(problems, cross_check(loaded.knowledge));
    append(problems, gate_faults(loaded.knowledge));
  }
  for (Problem& problem : problems)
    if (problem.place.file.empty()) problem.place.file = folder.string();
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  return loaded;
}

}  // namespace soot
