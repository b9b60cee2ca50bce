#include "core/workbench/case_run.hpp"

#include "core/base/append.hpp"
#include "core/base/text.hpp"
#include "core/knowledge/job_reader.hpp"
#include "core/model/words.hpp"
#include "core/workbench/rank.hpp"

#include <algorithm>

namespace soot {
namespace {

std::vector<std::filesystem::path> case_files(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(folder, error))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

TruthLine place_truth(const Engine& engine, const RankAnswer& ranked, const Truth& truth) {
  TruthLine line{truth.cause, "", truth.cylinder, truth.grade, 0, 0, 0, truth.within};
  if (truth.cause == not_listed_cause) {
    for (const NotListedLine& left : ranked.not_listed)
      line.probability = std::max(line.probability, left.probability);
    return line;
  }
  if (const Cause* cause = find_id(engine.knowledge.causes, truth.cause)) line.name = cause->name;
  for (const CauseLine& cause : ranked.by_cause) {
    if (cause.id != truth.cause) continue;
    line.probability = cause.probability;
    line.likeliest_cylinder = cause.cylinder;
    line.rank = 1;
    for (const CauseLine& other : ranked.by_cause)
      if (other.probability > cause.probability) ++line.rank;
  }
  return line;
}

}  // namespace

CaseShelf shelf_of(const std::filesystem::path& folder) {
  CaseShelf shelf;
  for (const std::filesystem::path& file : case_files(folder)) {
    const Result<Job> job = load_job(file);
    if (!job) {
      append(shelf.problems, job.error());
      continue;
    }
    shelf.titles.push_back(
        {file.stem().string(), job->family, job->sheet ? job->sheet->title : ""});
  }
  return shelf;
}

Result<CaseReport> run_case(const Bench& bench, const std::filesystem::path& folder,
                            const std::string& name) {
  std::vector<std::string> names;
  for (const std::filesystem::path& file : case_files(folder))
    names.push_back(file.stem().string());
  if (std::find(names.begin(), names.end(), name) == names.end())
    return fail(Kind::use, "no case is called '{}'{}", name, did_you_mean(name, names));
  const std::filesystem::path file = folder / (name + ".toml");
  const Result<Job> job = load_job(file);
  if (!job) return pass_on(job);
  const Result<Engine> engine = bench.engine(job->family);
  if (!engine) return pass_on(engine);
  const Result<Inquiry> inquiry = inquire(*engine, *job);
  if (!inquiry) return pass_on(inquiry);
  Result<RankAnswer> ranked = rank(*engine, *inquiry);
  if (!ranked) return pass_on(ranked);

  CaseReport report;
  report.name = name;
  report.rank = std::move(*ranked);
  if (job->sheet) {
    report.title = job->sheet->title;
    report.story = job->sheet->story;
    report.route = job->sheet->route;
    report.source = job->sheet->source;
    for (const Truth& truth : job->sheet->truth)
      report.truth.push_back(place_truth(*engine, report.rank, truth));
  }
  return report;
}

}  // namespace soot
