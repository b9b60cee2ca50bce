// plugin.h for C++17 authors: derive from Family, throw freely, one macro.
//
//   class Mine : public soot_sdk::Family, public soot_sdk::CamLaw {
//     using Family::Family;
//     const CamLaw* cam_law() const override { return this; }
//     double lift_mm(double crank_deg) const override { ... }
//   };
//   SOOT_PLUGIN("my-plugin", "1.0.0", soot_sdk::one_of_each_file<Mine>)
//
// std::invalid_argument and the other std::logic_errors say that the question was a bad one; any
// other exception that the plugin failed. The text of either reaches the person. This header is
// compiled into the plugin; nothing of it crosses the boundary, so compiler and flags are free.
#pragma once

#include <sootsayer/plugin.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <exception>
#include <filesystem>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

// Hidden, so that two plugins never share what is static here.
#pragma GCC visibility push(hidden)
namespace soot_sdk {

/// The program, seen from the plugin.
class Host {
 public:
  explicit Host(const soot_host_t* host) : host_(host) {}

  void note(const std::string& text) const { write(SOOT_NOTE, text); }
  void error(const std::string& text) const { write(SOOT_ERROR, text); }

  /// The plugin's own folder first, then those where the person keeps data for it.
  std::vector<std::string> folders() const {
    std::vector<std::string> found;
    const auto* service =
        static_cast<const soot_folders_t*>(host_->get_service(host_, SOOT_FOLDERS));
    if (service == nullptr) return found;
    for (std::uint32_t i = 0; const char* folder = service->folder(host_, i); ++i)
      found.emplace_back(folder);
    return found;
  }

 private:
  void write(std::int32_t severity, const std::string& text) const {
    const auto* service = static_cast<const soot_log_t*>(host_->get_service(host_, SOOT_LOG));
    if (service != nullptr) service->write(host_, severity, text.c_str());
  }

  const soot_host_t* host_;
};

/// The lift law of a pump cam, see SOOT_CAM_LAW for what is asked. The base circle is lift 0.
class CamLaw {
 public:
  virtual ~CamLaw() = default;
  virtual double lift_mm(double crank_deg) const = 0;

  /// The way back, on the rising flank. As it stands it looks for the lift from -360 to 120 deg in
  /// steps of a degree and halves the step in which it is passed; throws where the cam never lifts
  /// so far, or not at all.
  virtual double angle_deg(double lift_mm) const {
    if (!(lift_mm > 0)) throw std::out_of_range("a lift of 0 or less has no one angle");
    for (double right = -359; right <= 120; ++right) {
      if (this->lift_mm(right) <= lift_mm) continue;
      double left = right - 1, end = right;
      for (int i = 0; i < 60; ++i) {
        const double middle = left + (end - left) / 2;
        (this->lift_mm(middle) > lift_mm ? end : left) = middle;
      }
      return end;
    }
    throw std::out_of_range("the cam does not lift so far");
  }
};

/// An engine family: its tables, and what they cannot say.
class Family {
 public:
  /// `tables_name` is what messages call the text, e.g. "families/my-1.toml".
  Family(std::string id, std::string tables_name, std::string tables)
      : id_(std::move(id)), tables_name_(std::move(tables_name)), tables_(std::move(tables)) {}
  virtual ~Family() = default;
  Family(const Family&) = delete;
  Family& operator=(const Family&) = delete;

  /// Its own lift law, alive as long as the family; nothing where the tables name a law.
  virtual const CamLaw* cam_law() const { return nullptr; }

  const std::string& id() const { return id_; }
  soot_family_info_t info() const {
    return {id_.c_str(), tables_name_.c_str(), tables_.c_str(), tables_.size()};
  }

 private:
  std::string id_, tables_name_, tables_;
};

using Families = std::vector<std::unique_ptr<Family>>;

/// A whole file as text; throws if it cannot be read.
inline std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string text;
  char chunk[4096];
  while (file.read(chunk, sizeof chunk) || file.gcount() > 0)
    text.append(chunk, static_cast<std::size_t>(file.gcount()));
  if (!file.is_open() || file.bad()) throw std::runtime_error(path + " cannot be read");
  return text;
}

/// One `F` for each families/NAME.toml in the plugin's own folder, made of (NAME, name for
/// messages, text): for a plugin whose families differ in their tables only.
template <class F>
Families one_of_each_file(const Host& host) {
  const std::vector<std::string> folders = host.folders();
  if (folders.empty()) throw std::runtime_error("the program names no folder");
  const std::filesystem::path home = folders.front();
  std::vector<std::string> names;
  for (const auto& file : std::filesystem::directory_iterator(home / "families"))
    if (file.path().extension() == ".toml" && file.path().filename().string().front() != '.')
      names.push_back(file.path().stem().string());
  std::sort(names.begin(), names.end());
  Families families;
  for (const std::string& name : names) {
    const std::string file = "families/" + name + ".toml";
    families.push_back(std::make_unique<F>(name, file, read_file((home / file).string())));
  }
  return families;
}

namespace detail {

struct State {
  const soot_host_t* host = nullptr;
  Families families;
  std::vector<soot_family_info_t> infos;
  std::vector<soot_family_t> handles;
};

inline State& state() {
  static State the_state;
  return the_state;
}

/// Runs `call`; what it throws becomes a log line and a status.
template <class Call>
std::int32_t guarded(Call call) noexcept {
  std::int32_t status = SOOT_FAILED;
  try {
    try {
      call();
      return SOOT_OK;
    } catch (const std::logic_error& bad_question) {
      status = SOOT_BAD_INPUT;
      Host(state().host).error(bad_question.what());
    } catch (const std::exception& failure) {
      Host(state().host).error(failure.what());
    } catch (...) {
      Host(state().host).error("an exception that is no std::exception");
    }
  } catch (...) {  // no memory left to say it with
  }
  return status;
}

// Asked for once more at each call: what had a law when the extension was asked for may have none
// now.
inline const CamLaw& law_of(const soot_family_t* family) {
  if (const CamLaw* law = static_cast<const Family*>(family->self)->cam_law()) return *law;
  throw std::logic_error("the family has no lift law of its own");
}

inline std::int32_t lift_at(const soot_family_t* family, double crank_deg, double* lift_mm) {
  return guarded([&] { *lift_mm = law_of(family).lift_mm(crank_deg); });
}

inline std::int32_t angle_at(const soot_family_t* family, double lift_mm, double* crank_deg) {
  return guarded([&] { *crank_deg = law_of(family).angle_deg(lift_mm); });
}

inline const void* get_extension(const soot_family_t* family, const char* id) {
  static const soot_cam_law_t law = {lift_at, angle_at};
  const bool asked = std::strcmp(id, SOOT_CAM_LAW) == 0;
  const void* answer = nullptr;
  guarded([&] {
    if (asked && static_cast<const Family*>(family->self)->cam_law() != nullptr) answer = &law;
  });
  return answer;
}

inline std::uint32_t count() {
  return static_cast<std::uint32_t>(state().infos.size());
}

inline const soot_family_info_t* info(std::uint32_t index) {
  return index < state().infos.size() ? &state().infos[index] : nullptr;
}

inline const soot_family_t* create(const soot_host_t*, const char* id) {
  for (std::size_t i = 0; i < state().families.size(); ++i)
    if (state().families[i]->id() == id) return &state().handles[i];
  return nullptr;
}

inline const void* get_factory(const char* id) {
  static const soot_family_factory_t factory = {count, info, create};
  return std::strcmp(id, SOOT_FAMILY_FACTORY) == 0 ? &factory : nullptr;
}

inline void deinit() {
  state() = State();
}

/// `make` is the author's function: Families make(const Host&).
inline std::int32_t init(const soot_host_t* host, Families (*make)(const Host&)) {
  state().host = host;
  return guarded([&] {
    State made;
    made.host = host;
    made.families = make(Host(host));
    for (const std::unique_ptr<Family>& family : made.families) {
      made.infos.push_back(family->info());
      made.handles.push_back({family.get(), get_extension, [](const soot_family_t*) {}});
    }
    state() = std::move(made);
  });
}

}  // namespace detail
}  // namespace soot_sdk
#pragma GCC visibility pop

/// The plugin's entry: id and version as in plugin.toml (SOOT_PLUGIN_ID and SOOT_PLUGIN_VERSION
/// where CMake's sootsayer_add_plugin builds it), and the function that makes its families.
#define SOOT_PLUGIN(id, version, make)                                                            \
  const soot_entry_t soot_entry = {                                                               \
      SOOT_ABI_MAJOR,                                                                             \
      SOOT_ABI_MINOR,                                                                             \
      0,                                                                                          \
      sizeof(soot_entry_t),                                                                       \
      id,                                                                                         \
      version,                                                                                    \
      [](const soot_host_t* host) -> std::int32_t { return soot_sdk::detail::init(host, make); }, \
      soot_sdk::detail::deinit,                                                                   \
      soot_sdk::detail::get_factory};
