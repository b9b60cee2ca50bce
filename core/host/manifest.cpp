#include "core/host/manifest.hpp"

#include "core/host/plugin_text.hpp"
#include "core/table/reader.hpp"

#include <system_error>

namespace soot::host {

namespace {
/// A library that stands in the folder, or nothing.
std::string lonely_library(const std::filesystem::path& folder) {
  std::error_code ended;
  for (std::filesystem::directory_iterator at(folder, ended), end; !ended && at != end;
       at.increment(ended))
    if (at->path().extension() == ".so") return at->path().filename().string();
  return "";
}

void read_library(Reader& root, const std::filesystem::path& folder, Manifest& manifest) {
  manifest.abi = root.integer("abi").value_or(0);
  if (!root.has("library")) {
    if (const std::string library = lonely_library(folder); !library.empty())
      root.complain("library", fmt::format("library is missing (expected {}, which stands here)",
                                           tidy(library.c_str())));
    return;
  }
  if (manifest.abi < 1 && (!root.has("abi") || root.is_number("abi")))
    root.complain("abi", "abi is the boundary's number (expected 1 or more)");
  manifest.binary = root.needed_text("library");
  if (manifest.binary.find('/') != std::string::npos || manifest.binary == "..")
    root.complain("library", "library is in another folder (expected a file name)");
}

Result<Manifest> read_table(const std::filesystem::path& file) {
  Result<Document> document = Document::load(file);
  if (!document) return pass_on(document);
  Reader root = document->root();
  Manifest manifest;
  manifest.id = root.needed_text("id");
  if (!manifest.id.empty() && !is_id(manifest.id))
    root.complain("id", fmt::format("id '{}' (expected small letters, digits and hyphens)",
                                    tidy(manifest.id.c_str())));
  manifest.version = root.needed_text("version");
  read_library(root, file.parent_path(), manifest);
  manifest.about = root.needed_text("about");
  manifest.serves_own = root.boolean("serves-own-families").value_or(false);
  root.done();
  Problems problems = document->problems();
  if (has_errors(problems)) return tl::unexpected(std::move(problems));
  manifest.folder = file.parent_path();
  return manifest;
}
}  // namespace

Result<Manifest> read_manifest(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / "plugin.toml";
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(file, ignored)) {  // a pipe would never end
    Problem missing = make_problem(Kind::trouble, "no plugin.toml (expected a file)");
    missing.place.file = folder.string();
    return tl::unexpected(Problems{missing});
  }
  Result<Manifest> manifest = read_table(file);
  if (!manifest)
    for (Problem& problem : manifest.error())
      problem.kind = Kind::trouble;
  return manifest;
}

}  // namespace soot::host
