#include "core/host/manifest.hpp"

#include "core/host/plugin_text.hpp"
#include "core/table/reader.hpp"

#include <system_error>

namespace soot::host {

namespace {
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
  manifest.abi = root.integer("abi").value_or(0);
  if (manifest.abi < 1 && (!root.has("abi") || root.is_number("abi")))
    root.complain("abi", "abi is the boundary's number (expected 1 or more)");
  manifest.library = root.needed_text("library");
  if (manifest.library.find('/') != std::string::npos || manifest.library == "..")
    root.complain("library", "library is in another folder (expected a file name)");
  manifest.about = root.needed_text("about");
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
