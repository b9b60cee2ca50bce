#include "core/knowledge/entry_readers.hpp"
#include "core/knowledge/fields.hpp"

#include <fmt/format.h>

namespace soot {

Gate read_gate(Reader entry) {
  Gate gate;
  gate.place = entry.place();
  gate.id = read_id(entry);
  gate.name = entry.needed_text("name");
  const std::string before = entry.needed_text("before");
  if (before == "running")
    gate.before = Running::running;
  else if (before != "cranking")
    entry.complain("before", fmt::format("before is '{}' (expected cranking or running)", before));
  gate.after_caution = entry.texts("after-caution");
  gate.after_history = entry.texts("after-history");
  gate.after_found = entry.texts("after-found");
  if (gate.after_caution.empty() && gate.after_history.empty() && gate.after_found.empty())
    entry.complain("after-caution",
                   "nothing shuts the gate (expected after-caution, after-history or after-found)");
  gate.ask = entry.needed_text("ask");
  gate.also = entry.text("also").value_or("");
  gate.prove = entry.text("prove").value_or("");
  gate.within = entry.text("within").value_or("");
  gate.needs = entry.texts("needs");
  gate.source = read_source(entry);
  entry.done();
  return gate;
}

}  // namespace soot
