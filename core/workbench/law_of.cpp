#include "core/workbench/law_of.hpp"

#include "core/calc/make_law.hpp"

#include <utility>

namespace soot {

Result<std::shared_ptr<const calc::LiftLaw>> law_of(const Family& family,
                                                    std::shared_ptr<const calc::LiftLaw> own) {
  if (family.law.name.empty()) return std::shared_ptr<const calc::LiftLaw>{};
  if (family.law.name == "own") {
    if (own) return own;
    Problem problem = make_problem(
        Kind::data,
        "law = own, but no plugin gives a lift law for {} (expected one, or a named law)",
        family.id);
    problem.place = family.law.place;
    return tl::unexpected(Problems{std::move(problem)});
  }
  Result<std::unique_ptr<calc::LiftLaw>> law = calc::make_law(family.law, family);
  if (!law) return pass_on(law);
  return std::shared_ptr<const calc::LiftLaw>{std::move(*law)};
}

}  // namespace soot
