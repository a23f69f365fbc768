#include "making/pressed.h"

#include <algorithm>

#include "base/length.h"
#include "making/keyed.h"
#include "making/mill_job.h"
#include "workshop/material.h"

namespace crownwright::making {
namespace {

using order::Order;
using workshop::MaterialProfile;

press::HeatKind kind_of(order::Heat heat) {
  switch (heat) {
    case order::Heat::steam:
      return press::HeatKind::steam;
    case order::Heat::dry:
      return press::HeatKind::dry;
    case order::Heat::cold:
      break;
  }
  return press::HeatKind::cold;
}

double celsius_of(order::Iron iron) {
  switch (iron) {
    case order::Iron::at_110:
      return 110;
    case order::Iron::at_150:
      return 150;
    case order::Iron::at_200:
      break;
  }
  return 200;
}

press::HeatJob job_of(const Order& order, double cloth) {
  press::HeatJob job;
  if (cloth > 0) job.cloth = cloth;
  if (!order.press) return job;
  job.kind = kind_of(order.press->heat);
  if (order.press->iron) job.iron = celsius_of(*order.press->iron);
  if (order.press->press_cloth) job.press_cloth = order.press->press_cloth->mm();
  return job;
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " or " : ", ";
    text += names[i];
  }
  return text;
}

bool is_printable(const MaterialProfile& material) {
  using workshop::MaterialKind;
  return !material.kind || *material.kind == MaterialKind::amorphous ||
         *material.kind == MaterialKind::semi_crystalline || *material.kind == MaterialKind::elastomer;
}

// Whoever prints is not told of beech first, and nobody mills what has no figures for it.
void find_instead(const Order& order, const MaterialProfile& material, std::vector<MaterialProfile> all,
                  Pressed& pressed) {
  if (order.mill) {
    std::erase_if(all, [](const MaterialProfile& one) { return !one.cutting; });
  } else {
    std::stable_partition(all.begin(), all.end(), is_printable);
  }
  pressed.instead = press::instead_of(material, all, pressed.job);
  for (const std::string& name : pressed.instead)
    for (const MaterialProfile& one : all)
      if (one.name == name) pressed.instead_labels.push_back(workshop::label_of(one));
}

bool is_accepted(const Order& order) { return order.press && !order.press->accept_risk.empty(); }

Fault refusal(const Order& order, const Pressed& pressed) {
  const std::string key = order.mill ? " would serve ([mill] material)" : " would serve ([print] material)";
  const std::string would =
      pressed.instead.empty() ? std::string("no material known here does") : listed(pressed.instead) + key;
  return impossible_fault(
      pressed.material + " does not stand this heat: " + pressed.heat.reason,
      would +
          "; to make it all the same say why in [press] accept_risk; the maker's data sheet of your "
          "material goes before these figures");
}

// The report gives the reason beside the verdict; a warning says what follows from it.
void warn_of_heat(const Order& order, Pressed& pressed) {
  const std::string would =
      pressed.instead.empty() ? std::string() : "; " + listed(pressed.instead) + " would serve";
  const std::string job = press::in_words(pressed.job);
  if (pressed.heat.verdict == press::Verdict::no) {
    const std::string end = is_accepted(order) ? "; made all the same, as the order accepts the risk" : "";
    pressed.warnings.push_back(pressed.material + " loses its shape under " + job + would + end);
  } else if (pressed.heat.verdict == press::Verdict::risk && pressed.asked) {
    pressed.warnings.push_back("whether " + pressed.material + " stands " + job + " is not sure" + would);
  }
}

bool is_hollow_block(const Order& order) {
  return order.form.kind == order::FormKind::block && order.form.wall.has_value();
}

// At the job's heat while the material is a solid there, cold as the modulus was measured; cold tells at
// least what the wall itself does.
std::optional<press::Elastic> elastic_for(const MaterialProfile& material, Pressed& pressed) {
  if (pressed.heat.verdict != press::Verdict::no && pressed.job.kind != press::HeatKind::cold) {
    if (const auto hot = press::elastic_at(material, pressed.heat.job.celsius)) {
      pressed.stiffness_celsius = pressed.heat.job.celsius;
      return hot;
    }
  }
  pressed.stiffness_celsius = press::room_celsius;
  return press::elastic_of(material);
}

std::string remedies(const press::StiffnessAnswer& answer) {
  std::vector<std::string> ways;
  if (answer.least_wall) ways.push_back("a wall of " + number_text(*answer.least_wall, 1) + " mm");
  if (answer.least_dome) ways.push_back("a dome of " + number_text(*answer.least_dome, 1) + " mm");
  if (answer.posts) {
    constexpr int fewest_ordered = 3;  // on fewer a crown tips over
    const int count = std::max(fewest_ordered, answer.posts->on_ring + (answer.posts->in_middle ? 1 : 0));
    ways.push_back(number_text(count, 0) + " posts ([form] posts)");
  }
  return ways.empty() ? std::string() : "; " + listed(ways) + " would hold it to 1 mm";
}

void warn_of_stiffness(Pressed& pressed) {
  if (!pressed.stiffness || !pressed.asked) return;
  const press::StiffnessAnswer& answer = *pressed.stiffness;
  if (answer.grade != press::StiffnessGrade::weak) return;
  pressed.warnings.push_back("the crown gives way by " + number_text(answer.deflection, 1) +
                             " mm under the press" + remedies(answer));
}

}  // namespace

Result<Pressed> pressed_of(const Order& order, double cloth, const workshop::ProfileFolder& profiles) {
  const auto material = workshop::find_material(profiles, material_of(order));
  if (!material) return material.fault();
  Pressed pressed;
  pressed.asked = order.press.has_value();
  pressed.material = material->name;
  pressed.label = workshop::label_of(*material);
  pressed.job = job_of(order, cloth);
  pressed.heat = press::judge_heat(*material, pressed.job);
  if (pressed.heat.verdict != press::Verdict::fit) {
    auto all = workshop::list_materials(profiles);
    if (!all) return all.fault();
    find_instead(order, *material, *std::move(all), pressed);
  }
  if (pressed.asked && pressed.heat.verdict == press::Verdict::no && !is_accepted(order))
    return at_key(refusal(order, pressed), order.mill ? "mill.material" : "print.material");
  warn_of_heat(order, pressed);
  return pressed;
}

Result<Done> judge_crown(const Order& order, const CrownQuestion& question,
                         const workshop::ProfileFolder& profiles, Pressed& pressed) {
  if (!is_hollow_block(order)) return Done{};
  const auto material = workshop::find_material(profiles, material_of(order));
  if (!material) return material.fault();
  const auto elastic = elastic_for(*material, pressed);
  if (!elastic) {
    pressed.stiffness_celsius.reset();
    return Done{};
  }
  press::StiffnessQuestion stiffness;
  if (order.press) stiffness.load.force = order.press->load;
  stiffness.elastic = *elastic;
  stiffness.crown_radius = question.crown_radius;
  stiffness.edge_radius = question.edge_radius;
  stiffness.dome = question.dome;
  stiffness.wall = order.form.wall->mm();
  stiffness.posts = question.posts;
  stiffness.axis_taken = question.axis_taken;
  pressed.stiffness = press::judge_stiffness(stiffness);
  warn_of_stiffness(pressed);
  return Done{};
}

void judge_vents(const Order& order, double open_area, Pressed& pressed) {
  press::SteamQuestion question;
  if (order.press) question.flow = order.press->steam_flow;
  question.open_area = open_area;
  const bool is_pad = order.form.kind == order::FormKind::pad;
  question.foot_open = is_pad || (order.form.wall && (!order.form.floor || order.form.socket));
  pressed.steam = press::judge_steam(question);
  if (!pressed.asked || pressed.job.kind != press::HeatKind::steam) return;
  for (const std::string& warning : pressed.steam.warnings) pressed.warnings.push_back(warning);
}

}  // namespace crownwright::making
