#pragma once
// The weather record with this season's days behind it, for the season to come.

#include <filesystem>
#include <optional>
#include <string>

#include "object.hpp"

namespace aftercut::farm {

inline constexpr const char* next_weather_file = "weather.csv";

struct NextWeather {
  std::optional<std::string> text;  ///< the record's own lines and those of weather_so_far after them
  std::string note;                 ///< why it was not put together; empty: it was, or there is none
};

/// `top` is a farm.json whose folder reads without issues.
NextWeather next_weather(const Object& top, const std::filesystem::path& folder);

}  // namespace aftercut::farm
