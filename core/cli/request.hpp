// What a person asked for, after the command line was read and before anything is done. One struct
// a command; the words they were typed with stay in options.cpp.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace soot::cli {

/// What a question is asked of: a job file, else the ledger's job N, else its current job.
struct About {
  std::string file;
  std::optional<long> job;
  bool as_json = false;
};

struct Open {
  std::string family;
  std::string engine;  ///< its own name
};
struct Tell {
  std::optional<long> job;
  std::string words;
  std::string history;
};
struct Saw {
  std::optional<long> job;
  std::string symptom;
  std::vector<int> cylinders;
  bool absent = false;
  bool unsure = false;
  bool complaint = false;
};
struct Gauge {
  std::optional<long> job;
  std::string quantity;
  std::vector<std::string> readings;  ///< "3=29.41mm", or "15 psi" for the engine
  std::string uncertainty;
  std::string came_up = "yes";
  bool as_typed = false;  ///< insists on an absurd value
};
struct Rank {
  About about;
  std::size_t shown = 8;
  bool fit = false;  ///< says which piece of evidence fits worst
};
struct Weigh {
  About about;
  std::string cause;
  int cylinder = 0;
};
struct Next {
  About about;
  std::vector<std::string> skip;
  std::string why;
};
struct Steps {
  std::string id;  ///< empty with `as_form`: the engine's way of setting its timing
  bool as_form = false;
  std::string family;
  std::optional<long> job;
};
struct DoSum {
  About about;
  std::string family;
  std::string sum;
  std::vector<std::string> inputs;  ///< "depth=29.41mm", "3:depth=29.41mm"
};
struct Done {
  std::optional<long> job;
  std::string correction;
  std::vector<int> cylinders;
  std::string note;
  std::string parts;
  std::optional<double> minutes;
};
struct Prove {
  std::optional<long> job;
  std::string result;
  std::string note;
};
struct Close {
  std::optional<long> job;
  std::vector<std::string> causes;  ///< "lifter-one" or "lifter-one:3"
  std::string note;
};
struct Reopen {
  std::optional<long> job;
  std::string why;
};
struct Page {
  std::optional<long> job;
};
struct Jobs {
  bool all = false;
  bool as_json = false;
  std::optional<long> take_up;  ///< makes it the current one
};
struct Strike {
  std::optional<long> job;
  long line = 0;
  std::string why;
};
struct CaseList {
  bool as_json = false;
};
struct CaseRun {
  std::string name;
  bool as_json = false;
};
struct FamilyList {
  bool as_json = false;
};
struct FamilyShow {
  std::string family;
  bool as_json = false;
};
struct FamilyCheck {
  std::string file;
};
struct KnowledgeList {
  std::string kind;
  bool as_json = false;
};
struct KnowledgeShow {
  std::string id;
  bool as_json = false;
};
struct KnowledgeFind {
  std::vector<std::string> words;
  bool as_json = false;
};
struct KnowledgeCheck {
  bool all = false;  ///< every note, however many
  bool as_json = false;
};
struct PluginList {
  bool as_json = false;
};
struct PluginCheck {
  std::string path;  ///< folder, plugin.toml or library
  unsigned seconds = 10;
};
struct PluginAdd {
  std::string path;
  unsigned seconds = 10;
};
struct PluginRemove {
  std::string name;  ///< id, or its folder
};
struct PluginNew {
  std::string name;
  bool tabular = false;
};
struct PluginProbe {  ///< the child's half of PluginCheck
  std::string path;
  unsigned seconds = 10;
};

using Request =
    std::variant<Open, Tell, Saw, Gauge, Rank, Weigh, Next, Steps, DoSum, Done, Prove, Close,
                 Reopen, Page, Jobs, Strike, CaseList, CaseRun, FamilyList, FamilyShow, FamilyCheck,
                 KnowledgeList, KnowledgeShow, KnowledgeFind, KnowledgeCheck, PluginList,
                 PluginCheck, PluginAdd, PluginRemove, PluginNew, PluginProbe>;

}  // namespace soot::cli
