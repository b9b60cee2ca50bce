// The inputs of a sum from a job's readings, so that what was gauged need not be typed again.
#pragma once

#include "core/calc/sum.hpp"
#include "core/model/job.hpp"
#include "core/workbench/inquiry.hpp"

namespace soot {

/// What the job's readings give the form: every one of a quantity that the form names, if no
/// correction overtook it and the mark was come up to (or, where the form asks for such, was not).
/// Bounds are left out. The engine must outlive
/// the result.
calc::Ask ask_of(const Engine& engine, const Inquiry& inquiry, const calc::SumForm& form);

}  // namespace soot
