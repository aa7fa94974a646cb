#pragma once
// The demo farm with a few weather years, served from a folder of the test's own.

#include "aftercut/server/desk.hpp"
#include "aftercut/server/work.hpp"
#include "scratch.hpp"

namespace aftercut::test {

/// The plan that stands is in its folder already, or the desk has to make it.
enum class Base { there, to_be_made };

/// Reads the demo's own folder; scenarios are kept in `scratch`. Small efforts.
server::Setup served_farm(const Scratch& scratch, Base base = Base::there);

/// Waits for the job to end (a minute at most) and gives it.
server::Job ended(const server::Desk& desk, const std::string& job);
/// Waits until the job is in the stage or over.
server::Job at_stage(const server::Desk& desk, const std::string& job, const std::string& stage);

}  // namespace aftercut::test
