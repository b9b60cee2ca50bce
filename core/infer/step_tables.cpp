#include "core/infer/step_tables.hpp"

namespace soot::infer {

Table fold_bit(const Table& table, std::size_t place, const Bit& bit) {
  const std::size_t half = std::size_t{1} << place;
  Table folded;
  folded.reserve(table.size() / 2);
  for (std::size_t start = 0; start < table.size(); start += 2 * half)
    for (std::size_t i = start; i < start + half; ++i)
      folded.push_back(bit.quiet * table[i] + bit.fired * table[i + half]);
  return folded;
}

Table unfold_bit(const Table& after, std::size_t place, const Bit& bit) {
  const std::size_t half = std::size_t{1} << place;
  Table table(2 * after.size());
  std::size_t from = 0;
  for (std::size_t start = 0; start < table.size(); start += 2 * half)
    for (std::size_t i = start; i < start + half; ++i, ++from) {
      table[i] = bit.quiet * after[from];
      table[i + half] = bit.fired * after[from];
    }
  return table;
}

double quiet_part(const Table& table, const Table& after, std::size_t place, const Bit& bit) {
  if (table.empty()) return 0;
  const std::size_t half = std::size_t{1} << place;
  double sum = 0;
  std::size_t from = 0;
  for (std::size_t start = 0; start < table.size(); start += 2 * half)
    for (std::size_t i = start; i < start + half; ++i, ++from)
      sum += table[i] * after[from];
  return sum * bit.leak_only;
}

Table turn_table(const Step& step, const Table& table) {
  Table out;
  if (table.empty()) return out;
  out.reserve(table.size());
  for (const std::size_t high : step.high)
    for (const std::size_t low : step.low)
      out.push_back(table[low + high]);
  return out;
}

Table turn_table_back(const Step& step, const Table& table) {
  Table out(table.size());
  if (table.empty()) return out;
  std::size_t from = 0;
  for (const std::size_t high : step.high)
    for (const std::size_t low : step.low)
      out[low + high] = table[from++];
  return out;
}

void add_table(Table& to, const Table& more) {
  if (to.empty()) to.assign(more.size(), 0.0);
  for (std::size_t i = 0; i < more.size(); ++i)
    to[i] += more[i];
}

Table join_table(const Step& step, const Table& table, const Table& kernel) {
  if (table.empty() || kernel.empty()) return {};
  Table out(step.join.front().out_size());
  step.join.front().forward(out.data(), table.data(), kernel.data());
  return out;
}

Table table_gradient(const Step& step, const Table& after, const Table& kernel) {
  if (after.empty() || kernel.empty()) return {};
  Table out(step.join.front().left_size());
  step.join.front().adjoint(out.data(), after.data(), kernel.data());
  return out;
}
Table kernel_gradient(const Step& step, const Table& after, const Table& table) {
  if (after.empty() || table.empty()) return {};
  Table out(step.back.front().left_size());
  step.back.front().adjoint(out.data(), after.data(), table.data());
  return out;
}

double table_product(const Table& a, const Table& b) {
  return a.empty() || b.empty() ? 0 : dot(a.data(), b.data(), a.size());
}

}  // namespace soot::infer
