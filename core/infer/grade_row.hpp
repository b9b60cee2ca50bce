// A number for each grade of a cause, sound first. Every answer has hundreds of such rows, mostly
// of two to four numbers: these lie in the row itself.
#pragma once

#include <boost/container/small_vector.hpp>

namespace soot::infer {

using GradeRow = boost::container::small_vector<double, 4>;

}  // namespace soot::infer
