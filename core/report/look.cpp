#include "core/report/look.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace soot {
namespace {

std::string wrapped(const Look& look, std::string_view code, std::string_view text) {
  return look.colour ? fmt::format("\x1b[{}m{}\x1b[0m", code, text) : std::string{text};
}

}  // namespace

std::string percent(double probability) {
  const double p = probability * 100;
  if (p == 0) return "0 %";
  if (p < 0.01) return "< 0.01 %";
  if (p > 99.99) return "> 99.99 %";
  if (p < 0.1 || p > 99.9) return fmt::format("{:.2f} %", p);
  if (p < 1 || p > 99) return fmt::format("{:.1f} %", p);
  return fmt::format("{:.0f} %", p);
}

std::string factor(double log_odds) {
  if (std::isnan(log_odds)) return "cannot be said";
  if (std::isinf(log_odds)) return log_odds > 0 ? "settles it" : "rules it out";
  const double times = std::exp(std::abs(log_odds));
  if (times < 1.05) return "x 1";
  const char sign = log_odds > 0 ? 'x' : '/';
  if (times >= 1e6) return fmt::format("{} over a million", sign);
  return times < 9.95 ? fmt::format("{} {:.1f}", sign, times)
                      : fmt::format("{} {:.0f}", sign, times);
}

std::string duration(double minutes) {
  const long whole = std::lround(minutes);
  if (whole < 120) return fmt::format("{} min", whole);
  return whole % 60 == 0 ? fmt::format("{} h", whole / 60)
                         : fmt::format("{} h {:02}", whole / 60, whole % 60);
}

std::string strong(const Look& look, std::string_view text) {
  return wrapped(look, "1", text);
}
std::string faint(const Look& look, std::string_view text) {
  return wrapped(look, "2", text);
}
std::string struck(const Look& look, std::string_view text) {
  return wrapped(look, "9", text);
}

std::string plain(const Look& look, std::string text) {
  if (look.utf8) return text;
  static constexpr std::pair<std::string_view, std::string_view> marks[] = {
      {"\xC2\xB0", "deg"},   {"\xC2\xB1", "+/-"},   {"\xC3\x97", "x"},
      {"\xE2\x80\x93", "-"}, {"\xE2\x80\x94", "-"}, {"\xE2\x80\x99", "'"}};
  for (const auto& [mark, ascii] : marks)
    for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at))
      text.replace(at, mark.size(), ascii);
  for (char& c : text)
    if ((static_cast<unsigned char>(c) & 0x80U) != 0) c = '?';
  return text;
}

}  // namespace soot
