#include "gdal.hpp"

#include <cpl_error.h>
#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <mutex>

#include "aftercut/core/json_text.hpp"
#include "aftercut/core/left_behind.hpp"
#include "aftercut/core/save_file.hpp"

namespace aftercut::geo {
namespace {

namespace fs = std::filesystem;

void CPL_STDCALL on_message(CPLErr level, CPLErrorNum /*number*/, const char* message) {
  if (auto* listener = static_cast<Listener*>(CPLGetErrorHandlerUserData()))
    listener->hear(level >= CE_Failure, message);
}

}  // namespace

void start_gdal() {
  static std::once_flag once;
  std::call_once(once, [] {
    GDALAllRegister();
    OSRSetPROJEnableNetwork(FALSE);
  });
}

Listener::Listener() { CPLPushErrorHandlerEx(on_message, this); }
Listener::~Listener() {
  CPLPopErrorHandler();
  CPLErrorReset();
}

void Listener::hear(bool failure, std::string message) {
  // Messages quote a damaged file's bytes as they stand.
  if (!CPLIsUTF8(message.c_str(), static_cast<int>(message.size()))) message = in_ascii(std::move(message));
  const bool known = std::find(failures_.begin(), failures_.end(), message) != failures_.end();
  if (failure && !known) failures_.push_back(std::move(message));
}

std::string Listener::text() const { return fmt::format("{}", fmt::join(failures_, "; ")); }

Issues missing_or_empty(const fs::path& file) {
  std::error_code error;
  if (!fs::exists(file, error))
    return {
        {file.string(), "whole file", "no such file", "a readable file", "check the name and the folder"}};
  if (!fs::is_regular_file(file, error) && !fs::is_directory(file, error)) return {no_plain_file(file)};
  if (fs::is_regular_file(file, error) && fs::file_size(file, error) == 0)
    return {{file.string(), "whole file", "an empty file (0 bytes)", "a file with content",
             "export or copy the file again"}};
  return {};
}

fs::path unfinished_name(const fs::path& file) {
  remove_left_behind(file.has_parent_path() ? file.parent_path() : ".", file.filename().string());
  return part_named_alike(file);
}

}  // namespace aftercut::geo
