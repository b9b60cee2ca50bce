#pragma once

#include <string>

/// The folders of the checkout and of its build, absolute, without a slash at the end. Functions,
/// so that only one file of the tests depends on where the checkout lies.
const std::string& source_dir();
const std::string& binary_dir();
