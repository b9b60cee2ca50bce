// The shop's record of its jobs, kept in one SQLite file. Lines are only ever added: a mistaken one
// is crossed out by a further line and stays readable. A job remembers with which family and plugin
// it was opened; whether it is open or closed follows from its lines.
//
// Every call is one transaction: all of it is in the file afterwards, or nothing. What the
// surroundings do (locked, full, read-only, damaged) fails with Kind::trouble, what a person asked
// wrongly with Kind::use. Nothing here throws, and nothing checks ids against the knowledge.
#pragma once

#include "core/base/clock.hpp"
#include "core/ledger/entry.hpp"
#include "core/ledger/header.hpp"
#include "core/ledger/mode.hpp"

#include <chrono>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace soot::ledger {

class Ledger {
 public:
  /// In Mode::write a missing file is made, with its folders, and one of an older version is copied
  /// aside (`FILE.version-N`) and brought up. In Mode::read the file must be there and current, and
  /// every call that writes fails. `patience`: how long to wait for another program's lock.
  static Result<Ledger> open(const std::filesystem::path& file, Mode mode, Clock clock,
                             std::chrono::milliseconds patience = std::chrono::seconds{3});

  /// Makes the new job the current one; its number counts from 1.
  Result<long> open_job(const NewJob& job);

  Result<std::optional<long>> current() const;
  Result<void> set_current(long job);

  Result<Header> job(long number) const;
  /// By rising number.
  Result<std::vector<Summary>> jobs(Which which) const;
  /// Every line of a job, crossed out or not, by rising number.
  Result<std::vector<Entry>> entries(long job) const;

  /// Adds lines, all or none, with the same time; returns their numbers. A closed job takes notes,
  /// strikes and its reopening only.
  Result<std::vector<long>> append(long job, const std::vector<Payload>& payloads);
  Result<long> append(long job, const Payload& payload);

  /// Crosses out a line of this job; not one that is struck already, nor a strike.
  Result<long> strike(long job, long line, const std::string& reason);

  Ledger(Ledger&&) noexcept;
  Ledger& operator=(Ledger&&) noexcept;
  ~Ledger();

 private:
  struct Body;
  explicit Ledger(std::unique_ptr<Body> body);
  std::unique_ptr<Body> body_;
};

}  // namespace soot::ledger
