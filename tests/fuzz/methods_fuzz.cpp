// A farm's own methods, put onto the built-in ones.

#include "aftercut/method/recipe.hpp"
#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace aftercut;
  const std::string bytes = fuzz::text_of(data, size);
  const auto read = method::extend(method::builtin_book(), bytes, "methods.json");
  if (!read.ok()) {
    const auto again = method::extend(method::builtin_book(), bytes, "methods.json");
    fuzz::must(fuzz::checked(again.issues()) == fuzz::checked(read.issues()),
               "the same bytes are read the same");
    return 0;
  }
  fuzz::must(read.value().recipes.size() >= method::builtin_book().recipes.size(), "no method is lost");
  return 0;
}
