// Arrows between the folders of core go one way. The planted files show that the test can fail.
#include "tests/house/layers.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace {

using soot::test::against_the_layers;
using soot::test::SourceFile;

std::vector<std::string> judged(const std::string& path, const std::string& text) {
  return against_the_layers({SourceFile{path, text}});
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("every include goes down the table of the layers") {
  for (const std::string& fault : against_the_layers(soot::test::source_tree()))
    FAIL_CHECK(fault);
}

TEST_CASE("the tree that is judged is there") {
  const auto& files = soot::test::source_tree();
  const auto sources = std::count_if(files.begin(), files.end(), [](const SourceFile& file) {
    return file.is_below("core/") && file.ends_with(".cpp");
  });
  CHECK(sources > 100);
}

TEST_CASE("an include against the table is found") {
  CHECK(judged("core/infer/x.cpp", "#include \"core/model/job.hpp\"\n") ==
        Words{"core/infer/x.cpp includes core/model/job.hpp: infer may not know model"});
  CHECK(judged("core/plan/x.hpp", "  #  include  \"core/infer/answer.hpp\" // why\n") ==
        Words{"core/plan/x.hpp includes core/infer/answer.hpp: plan may not know infer"});
  CHECK(judged("core/workbench/x.cpp", "#include \"core/cli/session.hpp\"\n") ==
        Words{"core/workbench/x.cpp includes core/cli/session.hpp: workbench may not know cli"});
  CHECK(judged("core/report/x.cpp", "#include <sootsayer/plugin.h>\n") ==
        Words{"core/report/x.cpp includes sootsayer/plugin.h: report may not know sdk"});
}

TEST_CASE("an include with the table is let through") {
  CHECK(judged("core/infer/x.cpp",
               "#include \"core/infer/answer.hpp\"\n#include \"core/base/problem.hpp\"\n"
               "#include <vector>\n// #include \"core/cli/session.hpp\"\n")
            .empty());
  CHECK(judged("core/host/x.cpp", "#include <sootsayer/plugin.h>\n").empty());
  CHECK(judged("plugins/odd/odd.cpp", "#include <sootsayer/plugin.hpp>\n").empty());
}

TEST_CASE("a file under no rule is found") {
  CHECK(judged("core/extra/x.cpp", "") == Words{"core/extra/x.cpp is under no rule"});
  CHECK(judged("core/x.cpp", "") == Words{"core/x.cpp is under no rule"});
  CHECK(judged("tools/x.cpp", "") == Words{"tools/x.cpp is under no rule"});
}

TEST_CASE("a library outside its own folder is found") {
  CHECK(judged("core/knowledge/x.cpp", "#include <toml++/toml.h>\n") ==
        Words{"core/knowledge/x.cpp includes toml++/toml.h, which belongs to core/table/"});
  CHECK(judged("core/cli/x.cpp", "#include <CLI/CLI.hpp>\n") ==
        Words{"core/cli/x.cpp includes CLI/CLI.hpp, which belongs to core/cli/options"});
}

TEST_CASE("a plugin that reaches into core is found") {
  CHECK(judged("plugins/odd/odd.cpp", "#include \"core/base/text.hpp\"\n") ==
        Words{"plugins/odd/odd.cpp includes core/base/text.hpp: a plugin knows <sootsayer/...> "
              "only"});
}

TEST_CASE("an include that is not written from the root is found") {
  CHECK(judged("core/calc/x.cpp", "#include \"screw.hpp\"\n") ==
        Words{"core/calc/x.cpp includes screw.hpp, which is not written from the root"});
}
