// The name of a file, kept once for all the places in it: the knowledge has some six thousand
// places in a hundred and fifty files.
#pragma once

#include <memory>
#include <string>
#include <utility>

namespace soot {

/// Reads as a string, which lasts as long as a name that shares it; copies share it.
class FileName {
 public:
  using Shared = std::shared_ptr<const std::string>;

  FileName() = default;
  FileName(std::string name) : name_(std::make_shared<const std::string>(std::move(name))) {}
  FileName(const char* name) : FileName(std::string{name}) {}
  explicit FileName(Shared name) : name_(std::move(name)) {}

  const std::string& text() const {
    static const std::string none;
    return name_ ? *name_ : none;
  }
  operator const std::string&() const& { return text(); }
  operator const std::string&() const&& = delete;
  bool empty() const { return text().empty(); }
  const Shared& shared() const { return name_; }  ///< null for a name never given

  friend bool operator==(const FileName& a, const FileName& b) {
    return a.name_ == b.name_ || a.text() == b.text();
  }

 private:
  Shared name_;
};

}  // namespace soot
