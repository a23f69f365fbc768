#pragma once
// Roughing: level by level, a trench round the form and what stands above it.

#include "base/result.h"
#include "milling/job.h"
#include "milling/path.h"
#include "milling/setup.h"

namespace crownwright::milling {

/// Takes the stock away down to `job.leave` outside the target, measured square to it, with job.rough, as
/// deep as job.finish goes. Levels are no more than job.step_down apart, one of them just over the target's
/// top and over each of its level shelves; rings on a level no more than job.step_over. At each level the
/// tool goes down a ramp of a whole turn along the outermost ring (radius setup.trench less the tool's;
/// deeper ones a little further in, 0.1 mm a level and 0.3 mm in all, where the finishing tool has the room),
/// makes that ring whole, then ring by ring inwards as far as the target leaves room, a whole turn at the
/// end. What stands beyond the trench is left. It never goes straight down into stock, nor lower than
/// setup.lowest. Rapids go through air only. Seen from above the tool goes round clockwise about the form
/// (climb milling for a form that stays inside). Rings are arcs of half a turn. Empty when there is nothing
/// to take away.
///
/// What is left over the target is at most job.step_down, the leave and the cusps between rings.
/// Preconditions: step_down > 0, 0 < step_over < the tool's diameter; the trench is at least the target's end
/// radius, the tool's diameter and the leave (else std::logic_error).
Path rough_path(const Setup& setup, const Job& job);

}  // namespace crownwright::milling
