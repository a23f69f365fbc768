#include "press/heat.h"

#include "base/length.h"

namespace crownwright::press {
namespace {

using workshop::Certainty;
using workshop::MaterialKind;
using workshop::MaterialProfile;

Verdict by_margin(double margin) {
  if (margin < 0) return Verdict::no;
  return margin < safe_margin ? Verdict::risk : Verdict::fit;
}

// Which limit decides, and how.
void decide(const HeatLimits& limits, HeatVerdict& out) {
  const double job = out.job.celsius;
  if (limits.published && by_margin(limits.published->celsius - job) == Verdict::no) {
    out.verdict = Verdict::no;
    out.limit = limits.published;
    return;
  }
  out.limit = limits.lowest;
  if (limits.lowest && limits.lowest->certainty == Certainty::published) {
    out.verdict = by_margin(limits.lowest->celsius - job);
  }
}

std::string reason_for(const MaterialProfile& material, const HeatJob& job, const HeatVerdict& verdict) {
  if (!verdict.limit) {
    return "no limit is known for " + workshop::label_of(material) + ", and " + in_words(job) +
           " brings the form to " + number_text(verdict.job.celsius, 0) + " C";
  }
  const HeatLimit& limit = *verdict.limit;
  std::string text = workshop::label_of(material) + " keeps its shape up to " +
                     number_text(limit.celsius, 0) + " C (" + limit.measure;
  if (limit.certainty != Certainty::published) {
    text += ", known only from " + std::string(limit.certainty == Certainty::memory ? "memory" : "practice");
  }
  return text + "), and " + in_words(job) + " brings the form to " + number_text(verdict.job.celsius, 0) +
         " C";
}

void add_caution(std::vector<std::string>& cautions, const std::string& text) {
  if (!text.empty()) cautions.push_back(text);
}

void add_standing(HeatVerdict& out) {
  if (!out.limit || out.verdict == Verdict::no) return;
  if (out.job.standing <= out.limit->celsius || out.job.standing == out.job.celsius) return;
  out.cautions.push_back("Keep the iron moving: left standing it brings the form to " +
                         number_text(out.job.standing, 0) + " C, more than it bears.");
}

bool is_soft(MaterialKind kind) { return kind == MaterialKind::foam || kind == MaterialKind::elastomer; }

bool serves_alike(const MaterialProfile& one, const MaterialProfile& other) {
  return !one.kind || !other.kind || is_soft(*one.kind) == is_soft(*other.kind);
}

}  // namespace

std::string to_text(Verdict verdict) {
  switch (verdict) {
    case Verdict::fit:
      return "fit";
    case Verdict::risk:
      return "risk";
    case Verdict::no:
      break;
  }
  return "no";
}

HeatVerdict judge_heat(const MaterialProfile& material, const HeatJob& job) {
  HeatVerdict out;
  out.job = heat_of(job);
  decide(heat_limits(material), out);
  out.reason = reason_for(material, job, out);
  add_standing(out);
  for (const std::string* text : {&material.fume, &material.crush, &material.burn}) {
    add_caution(out.cautions, *text);
  }
  return out;
}

std::vector<std::string> instead_of(const MaterialProfile& material,
                                    const std::vector<MaterialProfile>& materials, const HeatJob& job) {
  std::vector<std::string> names;
  for (const MaterialProfile& other : materials) {
    if (other.name == material.name || !serves_alike(material, other)) continue;
    if (judge_heat(other, job).verdict == Verdict::fit) names.push_back(other.name);
  }
  return names;
}

}  // namespace crownwright::press
