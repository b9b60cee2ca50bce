// What single faults show on one engine, and what parts any two of them: the model read downwards,
// one cause at a time, as a check of the knowledge itself.
#pragma once

#include "core/workbench/network_builder.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace soot {

/// A likelihood ratio that is worth a look.
inline constexpr double telling_ratio = 3;

/// A finding or a reading on which two causes may differ.
struct Sign {
  bool is_reading = false;
  std::string id;
  bool elsewhere = false;        ///< on a cylinder next to the one that has the cause
  const Check* check = nullptr;  ///< that answers or reads it, if one does on this engine
};

class Parting {
 public:
  /// `engine` must outlive it. Cylinder causes are put on cylinder 1.
  static Result<Parting> on(const Engine& engine);

  const std::vector<const Cause*>& causes() const { return built_.causes; }
  const std::vector<Sign>& signs() const { return signs_; }
  /// Stands for no cause at all wherever a cause is asked for.
  std::size_t sound() const { return built_.causes.size(); }
  std::optional<std::size_t> index_of(std::string_view cause) const;

  /// How many times likelier the sign's outcome that speaks most for cause `a` is under `a` than
  /// under `b` (grades by their shares, after the history that brings the cause most); 1 or more.
  double ratio(std::size_t sign, std::size_t a, std::size_t b) const;

  /// The other cause that a person would most likely think of: the cause's own strongest complaint
  /// (else its strongest finding), after the history that brings it most; nothing if no other cause
  /// makes it.
  std::optional<std::size_t> rival_of(std::size_t cause) const;

  /// How much of the complaints of either is common to both, by their chances beyond the leaks: 0
  /// to 1 for the same complaints.
  double likeness(std::size_t a, std::size_t b) const;

  /// Whether a complaint that `a` makes with a chance of an eighth or more is one of `b`'s.
  bool share_a_complaint(std::size_t a, std::size_t b) const;

 private:
  struct Normal {
    double weight = 0, mean = 0, sd = 1;
  };
  /// Under one cause: the chance of a finding, or the reading as a mixture over the grades.
  struct Shown {
    double chance = 0;
    std::vector<Normal> reading;
  };

  explicit Parting(const Engine& engine) : engine_(&engine) {}
  void add_findings();
  void add_readings();
  std::vector<double> shares_of(std::size_t cause) const;
  std::vector<Normal> reading_of(std::size_t quantity, std::size_t cause, int cylinder) const;
  std::vector<Normal> difference_of(std::size_t quantity, std::size_t cause) const;
  const Check* check_of(std::string_view id) const;

  const Engine* engine_;
  BuiltNetwork built_;
  std::vector<std::size_t> history_;  ///< by cause: the one that brings it most
  std::vector<Sign> signs_;
  std::vector<std::vector<Shown>> shown_;  ///< by sign, by cause, the sound engine last
  std::vector<std::size_t> complaints_;    ///< signs that a person notices without a check
};

}  // namespace soot
