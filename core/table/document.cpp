#include "core/table/body.hpp"
#include "core/table/read_text.hpp"
#include "core/table/reader.hpp"
#include "core/table/text_check.hpp"

#include <fmt/format.h>

namespace soot {
namespace {

// The library speaks of its parser first ("Error while parsing string: ..."): a person needs what
// comes after it, and then where in the grammar that was.
std::string plain_words(std::string_view description) {
  constexpr std::string_view parser = "Error while parsing ";
  std::string words{description};
  if (words.starts_with(parser)) {
    const std::size_t colon = words.find(": ");
    if (colon != std::string::npos)
      words = fmt::format("{} (in: {})", words.substr(colon + 2),
                          words.substr(parser.size(), colon - parser.size()));
  }
  for (char& c : words)
    if (static_cast<unsigned char>(c) < 0x20) c = ' ';
  return "not TOML: " + words;
}

Problem problem_at(const DocumentBody& body, int line, int column, std::string words) {
  Problem problem;
  problem.place = Place{body.name, line, column};
  problem.text = std::move(words);
  problem.excerpt = excerpt_of(body.text, line, column);
  return problem;
}

}  // namespace

void DocumentBody::add(int line, int column, Severity severity, std::string words) {
  if (problems.size() >= Document::max_problems) {
    ++unshown;
    return;
  }
  Problem problem = problem_at(*this, line, column, std::move(words));
  problem.severity = severity;
  problems.push_back(std::move(problem));
}

Result<Document> Document::parse(std::string name, std::string text) {
  auto body = std::make_shared<DocumentBody>();
  body->name = std::move(name);
  body->text = std::move(text);
  if (body->text.size() > max_bytes)
    return tl::unexpected<Problems>(Problems{problem_at(
        *body, 0, 0,
        fmt::format("too long for a file of this kind (expected at most {} bytes)", max_bytes))});
  if (std::optional<TextFault> fault = text_fault(body->text))
    return tl::unexpected<Problems>(
        Problems{problem_at(*body, fault->line, fault->column, std::move(fault->words))});
  try {
    body->root = toml::parse(std::string_view{body->text}, std::string_view{body->name.text()});
  } catch (const toml::parse_error& error) {
    const auto at = error.source().begin;
    return tl::unexpected<Problems>(
        Problems{problem_at(*body, static_cast<int>(at.line), static_cast<int>(at.column),
                            plain_words(error.description()))});
  }
  return Document{std::move(body)};
}

Result<Document> Document::load(const std::filesystem::path& path) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) {
    Problem problem = make_problem(Kind::data, "no such file");
    if (std::filesystem::exists(path, error)) problem.text = "not a file that can be read";
    problem.place.file = path.string();
    return tl::unexpected<Problems>(Problems{problem});
  }
  std::optional<std::string> text = read_text(path, max_bytes);
  if (!text) {
    Problem problem = make_problem(Kind::data, "cannot be read");
    problem.place.file = path.string();
    return tl::unexpected<Problems>(Problems{problem});
  }
  return parse(path.string(), std::move(*text));
}

Reader Document::root() {
  auto state = std::make_shared<Reader::State>();
  state->body = body_.get();
  state->table = &body_->root;
  return Reader{std::move(state)};
}

Problems Document::problems() const {
  Problems all = body_->problems;
  if (body_->unshown > 0) {
    Problem more = make_problem(Kind::data, "and {} more like these", body_->unshown);
    more.place.file = body_->name;
    all.push_back(std::move(more));
  }
  return all;
}

}  // namespace soot
