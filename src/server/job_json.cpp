#include "job_json.hpp"

#include <array>
#include <cmath>

#include "replies.hpp"

namespace aftercut::server {
namespace {

using json = nlohmann::ordered_json;

constexpr std::array<const char*, 6> kind_words{"base", "again", "weigh", "morning", "ahead", "stand"};

}  // namespace

std::string progress_json(const Job& job) {
  return json{{"id", job.id}, {"stage", job.stage}, {"share", std::round(100.0 * job.share) / 100.0}}.dump();
}

std::string job_json(const Job& job) {
  json out{{"id", job.id},
           {"kind", kind_words[static_cast<std::size_t>(job.kind)]},
           {"stage", job.stage},
           {"share", std::round(100.0 * job.share) / 100.0}};
  out["saved_as"] = job.saved_as.empty() ? json(nullptr) : json(job.saved_as);
  out["answer"] = job.answer.empty() ? json(nullptr) : json::parse(job.answer);
  out["issues"] = issues_json(job.issues);
  out["fault"] = job.fault.empty() ? json(nullptr) : json(job.fault);
  out["plan"] = job.plan.empty() ? json(nullptr) : json(job.plan);
  return out.dump(-1, ' ', false, json::error_handler_t::replace);
}

}  // namespace aftercut::server
