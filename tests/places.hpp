// Where the checkout and its build lie. Functions, so that only one file of the tests depends on
// it.
#pragma once

#include <string>

/// Absolute, without a slash at the end.
const std::string& source_dir();
const std::string& binary_dir();
