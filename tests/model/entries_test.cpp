// Lists of entries that their copies share.
#include "core/model/knowledge.hpp"

#include <doctest/doctest.h>

#include <string>

namespace {

using List = soot::Entries<std::string>;

std::string all_of(const List& list) {
  std::string all;
  for (const std::string& entry : list)
    all += entry + " ";
  return all;
}

}  // namespace

TEST_CASE("copies of a list share their entries until one is changed") {
  List common{"belt", "filter", "pump"};
  List own = common;
  CHECK(&own[1] == &common[1]);
  own.edit(1) = "strainer";
  CHECK(all_of(own) == "belt strainer pump ");
  CHECK(all_of(common) == "belt filter pump ");
  CHECK(&own[1] != &common[1]);
  CHECK(&own[2] == &common[2]);
}

TEST_CASE("an entry that no other list has is changed where it is") {
  List list{"belt"};
  const std::string* before = &list[0];
  list.edit(0) += "s";
  CHECK(&list[0] == before);
  CHECK(list.front() == "belts");
}

TEST_CASE("taking out and adding leave the list that was copied as it was") {
  const List common{"belt", "filter", "pump"};
  List own = common;
  own.erase_if([](const std::string& entry) { return entry == "filter"; });
  own.push_back("winch");
  own.append(common);
  CHECK(all_of(own) == "belt pump winch belt filter pump ");
  CHECK(all_of(common) == "belt filter pump ");
  CHECK(&own.back() == &common.back());
}

TEST_CASE("lists are equal entry by entry whether shared or not") {
  const List one{"belt", "pump"};
  const List same{"belt", "pump"};
  CHECK(one == same);
  CHECK_FALSE(one == List{"pump", "belt"});
  CHECK_FALSE(one == List{"belt"});
  CHECK(List{}.empty());
}

TEST_CASE("places in one file share its name") {
  const soot::FileName name{"causes.toml"};
  const soot::Place one{name, 3, 1}, other{name, 9, 1};
  CHECK(one.file.shared() == other.file.shared());
  CHECK(one.file == std::string{"causes.toml"});
  CHECK(soot::FileName{}.empty());
  CHECK(soot::FileName{} == "");
}
