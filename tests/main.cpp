// The one main of every test program. doctest calls a filter that matches nothing a success;
// here it is a failure, so that a misspelt name in CTest cannot pass unseen.
#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

#include <cstdio>

namespace {
bool any_test_ran = false;

struct RunCounter : doctest::IReporter {
  explicit RunCounter(const doctest::ContextOptions&) {}
  void report_query(const doctest::QueryData&) override { any_test_ran = true; }
  void test_run_start() override {}
  void test_run_end(const doctest::TestRunStats&) override {}
  void test_case_start(const doctest::TestCaseData&) override { any_test_ran = true; }
  void test_case_reenter(const doctest::TestCaseData&) override {}
  void test_case_end(const doctest::CurrentTestCaseStats&) override {}
  void test_case_exception(const doctest::TestCaseException&) override {}
  void subcase_start(const doctest::SubcaseSignature&) override {}
  void subcase_end() override {}
  void log_assert(const doctest::AssertData&) override {}
  void log_message(const doctest::MessageData&) override {}
  void test_case_skipped(const doctest::TestCaseData&) override {}
};
}  // namespace

REGISTER_LISTENER("run-counter", 1, RunCounter);

int main(int argc, char** argv) {
  doctest::Context context(argc, argv);
  const int failures = context.run();
  if (context.shouldExit()) return failures;
  if (!any_test_ran) {
    std::fputs("no test case matches the filter\n", stderr);
    return 2;
  }
  return failures;
}
