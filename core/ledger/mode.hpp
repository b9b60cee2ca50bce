// How a ledger is opened: to look things up, or to write as well.
#pragma once

namespace soot::ledger {

enum class Mode { read, write };

}  // namespace soot::ledger
