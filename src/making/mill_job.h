#pragma once
// From an order's [mill] to what the milling stage and its trial take.

#include <string>

#include "base/result.h"
#include "milling/job.h"
#include "milling/setup.h"
#include "order/order.h"
#include "simulation/bench.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// What the form is made of: the material that is milled, or else that is printed.
const std::string& material_of(const order::Order& order);

/// Precondition: the order has a [mill]. Steps and feeds that it does not tell are the material's. Faults
/// (order): unknown material; one whose profile says nothing about milling, with those that do.
Result<milling::Job> mill_job(const order::Order& order, const workshop::ProfileFolder& profiles);

/// The passes of a set-up, in the order of their cutting.
enum class Pass { rough, finish, drill };
/// "rough", "finish", "drill": part of the file's name.
std::string pass_word(Pass pass);
/// "6 mm ball", "3 mm drill".
std::string tool_words(const milling::Job& job, Pass pass);

/// The trial's own words for the same things: nothing of the path is handed over.
simulation::Bench bench_of(const milling::Setup& setup);
simulation::Cutter cutter_of(const milling::Job& job, Pass pass);
simulation::Limits limits_of(const milling::Job& job, const milling::Setup& setup);

}  // namespace crownwright::making
