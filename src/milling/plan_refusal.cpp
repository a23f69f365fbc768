#include "milling/plan_refusal.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "meridian/cut.h"
#include "meridian/refusal.h"
#include "milling/tiers.h"

namespace crownwright::milling {
namespace {

using meridian::mm_text;

// The greatest tenth of a millimetre up to `high` for which it works, where it does for all smaller ones;
// otherwise one for which it does, or nothing.
template <class Works>
std::optional<double> largest_tenth(double low, double high, Works works) {
  int fits = static_cast<int>(std::ceil(10 * low - 1e-9)),
      fails = static_cast<int>(std::floor(10 * high)) + 1;
  if (fits >= fails || !works(fits / 10.0)) return std::nullopt;
  while (fails - fits > 1) {
    const int middle = fits + (fails - fits) / 2;
    (works(middle / 10.0) ? fits : fails) = middle;
  }
  return fits / 10.0;
}

// Both tools where one is the other, else the greater alone.
Job with_tool(const Job& job, double diameter) {
  Job smaller = job;
  smaller.finish.diameter = std::min(job.finish.diameter, diameter);
  smaller.rough.diameter = std::min(job.rough.diameter, diameter);
  return smaller;
}

double thickest(const Job& job) { return std::max(job.finish.diameter, job.rough.diameter); }

constexpr double least_tool = 0.5;  // mm: thinner cutters are not sold for routers (common practice)

std::optional<double> largest_tool(const Asked& asked, double below) {
  const double most = std::min(below, thickest(asked.job)) - 0.1;
  return largest_tenth(least_tool, most, [&](double diameter) {
    return can_be_cut(asked.outline, asked.solid, with_tool(asked.job, diameter), asked.way);
  });
}

std::string joined(const std::vector<std::string>& clauses, const std::string& between,
                   const std::string& last) {
  std::string text;
  for (std::size_t i = 0; i < clauses.size(); ++i) {
    if (i > 0) text += i + 1 == clauses.size() ? last : between;
    text += clauses[i];
  }
  return text;
}

std::string tiers_text(const Plan& plan) {
  std::vector<std::string> planes;
  for (std::size_t i = 1; i < plan.slabs.size(); ++i) planes.push_back(number_text(plan.slabs[i].top, 2));
  std::string text = std::string("setup = \"tiers\": ") + std::to_string(plan.slabs.size()) +
                     " tiers from sheets of " + number_text(plan.stock.sheet) + " mm";
  if (!planes.empty()) text += ", glue planes " + joined(planes, ", ", " and ") + " mm above the foot";
  return text;
}

// With what it needs besides, where it does not work as it stands.
std::string tiers_offer(const Asked& asked) {
  const Result<Attempt> tried = attempt(asked.outline, asked.solid, asked.job, Way::tiers);
  if (!tried) return std::string("setup = \"tiers\" with ") + tried.fault().allowed;
  std::vector<std::string> needs;
  for (const Lack& lack : tried->lacks) needs.push_back(lack.remedy);
  const std::string more =
      needs.empty() ? std::string() : std::string(", with ") + joined(needs, ", ", " and ");
  return tiers_text(tried->plan) + more;
}

std::string thinner_sheet(const Asked& asked) {
  const auto sheet = largest_tenth(least_sheet, asked.job.sheet - 0.1, [&](double thickness) {
    Job job = asked.job;
    job.sheet = thickness;
    return can_be_cut(asked.outline, asked.solid, job, asked.way);
  });
  return sheet ? "stock_sheets of at most " + mm_text(*sheet) : std::string();
}

std::string smaller_tool(const Asked& asked) {
  const auto tool = largest_tool(asked, INFINITY);
  return tool ? "a tool of at most " + mm_text(*tool) : std::string();
}

// A pad whose straight side is shortened from below.
Outline lower_outline(const Outline& pad, double height) {
  Outline low = pad;
  const double less = pad.height - height;
  low.outer = meridian::cut_below(meridian::translated(pad.outer, -less), 0);
  low.height = height;
  low.equator -= less;
  low.foot_radius = low.outer.back().to().r;
  return low;
}

std::string lower_pad(const Asked& asked) {
  if (!asked.outline.pad) return {};
  solid::Solid bare = asked.solid;
  bare.rings.clear();
  bare.pole_vent = false;
  const double least = asked.outline.height - asked.outline.equator + 1;
  const auto height = largest_tenth(least, asked.outline.height, [&](double z) {
    return can_be_cut(lower_outline(asked.outline, z), bare, asked.job, asked.way);
  });
  return height ? "a pad of at most " + mm_text(*height) + " rise" : std::string();
}

// Where all that is short is room beside the form.
std::string narrower_form(const std::vector<Lack>& lacks) {
  double width = INFINITY;
  for (const Lack& lack : lacks) width = std::min(width, lack.form_width.value_or(0));
  return width > 0 ? "a form at most " + meridian::most_text(width) + " wide" : std::string();
}

// Other ways out; each alone is enough.
std::vector<std::string> other_ways_out(const Asked& asked, const std::vector<Lack>& lacks) {
  std::vector<std::string> ways;
  const auto add = [&](std::string way) {
    if (!way.empty()) ways.push_back(std::move(way));
  };
  if (asked.way == Way::turn_over) return {tiers_offer(asked)};
  add(thinner_sheet(asked));
  add(smaller_tool(asked));
  add(lower_pad(asked));
  add(narrower_form(lacks));
  if (asked.way == Way::one && can_be_cut(asked.outline, asked.solid, asked.job, Way::tiers))
    add(tiers_offer(asked));
  return ways;
}

Fault no_ball(const Asked& asked) {
  return impossible_fault("only a ball finishes a crown, and the tool is flat",
                          std::string("tool = \"") + number_text(asked.job.finish.diameter) + " mm ball\"");
}

}  // namespace

std::optional<Fault> refuse_tools(const Asked& asked) {
  if (asked.job.finish.shape != ToolShape::ball) return no_ball(asked);
  const double form = 2 * asked.outline.widest, tool = thickest(asked.job);
  if (tool < form) return std::nullopt;
  const auto fits = largest_tool(asked, form);
  return impossible_fault(
      "a tool of " + mm_text(tool) + " is bigger than the form, which is " + mm_text(form) + " wide",
      fits ? "a tool of at most " + mm_text(*fits) : "a tool below " + meridian::most_text(form, false));
}

std::optional<Fault> refuse_way(const Asked& asked) {
  const Outline& outline = asked.outline;
  if (asked.way == Way::one && outline.head_line) {
    return impossible_fault(
        "a block cannot be milled in one set-up: from above nothing is seen of its "
        "underside, below " +
            mm_text(outline.equator),
        tiers_offer(asked));
  }
  if (asked.way == Way::turn_over && !outline.head_line)
    return impossible_fault("a pad has nothing on its underside to be turned over for", "setup = \"one\"");
  if (asked.way == Way::turn_over && !holds_on_its_foot(outline)) {
    return impossible_fault("turned over, the form stands free on its foot in the end, and " +
                                mm_text(2 * outline.foot_radius) + " of foot do not hold " +
                                mm_text(outline.height) + " of height",
                            tiers_offer(asked));
  }
  return std::nullopt;
}

Fault refuse_lacks(const Asked& asked, const std::vector<Lack>& lacks) {
  std::vector<std::string> whats, remedies;
  for (const Lack& lack : lacks) {
    whats.push_back(lack.what);
    remedies.push_back(lack.remedy);
  }
  std::string nearest = joined(remedies, ", ", " and ");
  for (const std::string& way : other_ways_out(asked, lacks)) nearest += "; or " + way;
  return impossible_fault(joined(whats, "; ", "; "), nearest);
}

}  // namespace crownwright::milling
