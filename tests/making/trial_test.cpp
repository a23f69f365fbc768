// Programs from files tried on an order's stock: the program's own pass, each planted fault is found.
#include "making/trial.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "making/milled_orders.h"

namespace crownwright::making {
namespace {

using Lines = std::vector<std::string>;

struct Programs {
  Lines rough, finish;
};

const Programs& own_programs() {
  static const Programs programs = [] {
    const auto& all = test::milled_once(test::milled_pad).setups.front().programs;
    return Programs{test::lines_in(all[0].text), test::lines_in(all[1].text)};
  }();
  return programs;
}

Result<Trial> tried(const Programs& programs, const std::string& text = test::milled_pad) {
  return try_programs(
      test::read_order(text),
      {{"p.rough.ngc", test::text_of(programs.rough)}, {"p.finish.ngc", test::text_of(programs.finish)}}, "",
      test::own_profiles());
}

bool is_motion(const std::string& line) {
  return line.size() > 2 && line[0] == 'G' && (line[1] == '0' || line[1] == '1') && line[2] == ' ';
}

bool is_arc(const std::string& line) { return line.rfind("G2 ", 0) == 0 || line.rfind("G3 ", 0) == 0; }

std::optional<double> word(const std::string& line, char letter) {
  const auto at = line.find(letter);
  if (at == std::string::npos) return std::nullopt;
  return std::strtod(line.c_str() + at + 1, nullptr);
}

std::string with_word(const std::string& line, char letter, double value) {
  const auto at = line.find(letter);
  const auto end = line.find_first_not_of("-0123456789.", at + 1);
  char number[32];
  std::snprintf(number, sizeof number, "%.4f", value);
  return line.substr(0, at + 1) + number + (end == std::string::npos ? "" : line.substr(end));
}

/// All motion lines of the finishing spiral, by number.
std::vector<std::size_t> spiral(const Lines& lines) {
  std::vector<std::size_t> numbers;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (is_motion(lines[i]) && lines[i][1] == '1' && word(lines[i], 'X')) numbers.push_back(i);
  return numbers;
}

/// Behind the first move, which goes up; the next one goes to where the cut begins.
std::size_t after_start(const Lines& lines) {
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (is_motion(lines[i])) return i + 1;
  throw std::runtime_error("the program does not move");
}

Lines with_lines(Lines lines, std::size_t at, const Lines& more) {
  lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at), more.begin(), more.end());
  return lines;
}

Lines replaced(Lines lines, const std::string& from, const std::string& to) {
  for (std::string& line : lines)
    if (line[0] != '(')
      for (auto at = line.find(from); at != std::string::npos; at = line.find(from, at + to.size()))
        line.replace(at, from.size(), to);
  return lines;
}

Lines moved(Lines lines, char letter, double by, std::size_t from = 0, std::size_t to = 1'000'000'000) {
  for (const std::size_t i : spiral(lines))
    if (i >= from && i < to && !is_arc(lines[i + 1]))
      if (const auto value = word(lines[i], letter)) lines[i] = with_word(lines[i], letter, *value + by);
  return lines;
}

TEST(Trial, OwnProgramsPass) {
  const auto trial = tried(own_programs());
  ASSERT_TRUE(trial) << trial.fault().line();
  EXPECT_TRUE(trial->broken.empty()) << trial->broken.front();
  EXPECT_EQ(trial->setup, "one");
  EXPECT_TRUE(trial->finished);
  EXPECT_EQ(trial->tools, (std::vector<std::string>{"6 mm ball", "6 mm ball"}));
}

// What roughing alone leaves is no fault.
TEST(Trial, RoughingAloneIsNotJudgedByWhatItLeaves) {
  const auto trial =
      try_programs(test::read_order(test::milled_pad), {{"p.rough.ngc", test::text_of(own_programs().rough)}},
                   "", test::own_profiles());
  ASSERT_TRUE(trial) << trial.fault().line();
  EXPECT_TRUE(trial->broken.empty()) << trial->broken.front();
  EXPECT_FALSE(trial->finished);
  EXPECT_GT(trial->findings.rest_max, 0.4);
}

// Once finished it is judged, whatever was cut after that: here the roughing program again, which cuts air.
TEST(Trial, WhatStandsAfterFinishingIsJudgedWhateverComesLast) {
  const Programs& own = own_programs();
  const auto trial = try_programs(test::read_order(test::milled_pad),
                                  {{"p.rough.ngc", test::text_of(own.rough)},
                                   {"p.finish.ngc", test::text_of(moved(own.finish, 'Z', 0.1))},
                                   {"q.rough.ngc", test::text_of(own.rough)}},
                                  "", test::own_profiles());
  ASSERT_TRUE(trial) << trial.fault().line();
  EXPECT_TRUE(trial->finished);
  ASSERT_EQ(trial->broken.size(), 1u);
  EXPECT_NE(trial->broken.front().find("left standing"), std::string::npos) << trial->broken.front();
}

struct Planted {
  const char* name;
  std::function<Programs(Programs)> plant;
  const char* word;  ///< in the sentence of the limit that is broken
};

const std::vector<Planted>& planted_limits() {
  static const std::vector<Planted> faults = {
      {"0.1 mm too deep over 3 mm",
       [](Programs p) {
         const auto all = spiral(p.finish);
         const std::size_t from = all[all.size() / 3];
         double length = 0;
         std::size_t to = from;
         for (std::size_t i = all.size() / 3; length < 3; ++i) {
           to = all[i + 1];
           length += std::hypot(*word(p.finish[all[i + 1]], 'X') - *word(p.finish[all[i]], 'X'),
                                *word(p.finish[all[i + 1]], 'Y') - *word(p.finish[all[i]], 'Y'));
         }
         p.finish = moved(p.finish, 'Z', -0.1, from, to + 1);
         return p;
       },
       "into the form"},
      {"rapid down into the stock",
       [](Programs p) {
         p.rough =
             with_lines(p.rough, after_start(p.rough), {"G0 X0.0000 Y0.0000", "G0 Z25.0000", "G0 Z35.0000"});
         return p;
       },
       "rapid"},
      {"rapid across the stock",
       [](Programs p) {
         const auto all = spiral(p.finish);
         p.finish = with_lines(p.finish, all[20] + 1, {"G0 X70.0000 Y0.0000"});
         return p;
       },
       "rapid"},
      {"without the pole",
       [](Programs p) {
         Lines kept;
         for (const std::string& line : p.finish) {
           const auto x = word(line, 'X'), y = word(line, 'Y');
           const bool inner = is_motion(line) && line[1] == '1' && x && y && std::hypot(*x, *y) < 3;
           const bool down = is_motion(line) && line[1] == '1' && !x && !y;
           if (!inner && !down)
             kept.push_back(line);
           else if (line.find('F') != std::string::npos)
             kept.push_back(line.substr(line.find('F')));
         }
         p.finish = kept;
         return p;
       },
       ""},
      {"without the last turns",
       [](Programs p) {
         const auto all = spiral(p.finish);
         double lowest = 1e9;
         for (const std::size_t i : all)
           if (const auto z = word(p.finish[i], 'Z')) lowest = std::min(lowest, *z);
         // From the first move below 4 mm above the lowest.
         for (std::size_t k = 0; k < all.size(); ++k) {
           const auto z = word(p.finish[all[k]], 'Z');
           if (!z || *z > lowest + 4) continue;
           Lines kept(p.finish.begin(), p.finish.begin() + static_cast<std::ptrdiff_t>(all[k]));
           for (std::size_t i = all[k]; i < p.finish.size(); ++i)
             if (p.finish[i].rfind("G1", 0) != 0 && !is_arc(p.finish[i])) kept.push_back(p.finish[i]);
           p.finish = kept;
           break;
         }
         return p;
       },
       "stand"},
      {"one turn left out",
       [](Programs p) {
         Lines kept;
         for (const std::string& line : p.finish) {
           const auto x = word(line, 'X'), y = word(line, 'Y');
           const double r = x && y ? std::hypot(*x, *y) : 0;
           if (!(is_motion(line) && line[1] == '1' && r > 30 && r < 32.2)) kept.push_back(line);
         }
         p.finish = kept;
         return p;
       },
       ""},
      {"coarse chords",
       [](Programs p) {
         const auto all = spiral(p.finish);
         Lines kept;
         std::size_t count = 0;
         for (std::size_t i = 0; i < p.finish.size(); ++i) {
           const bool move = std::binary_search(all.begin(), all.end(), i);
           const bool arc_next = i + 1 < p.finish.size() && is_arc(p.finish[i + 1]);
           if (!move || arc_next || count++ % 12 == 0) kept.push_back(p.finish[i]);
         }
         p.finish = kept;
         return p;
       },
       ""},
      {"all 0.05 mm aside",
       [](Programs p) {
         p.finish = moved(p.finish, 'X', 0.05);
         return p;
       },
       ""},
      {"all 0.1 mm too high",
       [](Programs p) {
         p.finish = moved(p.finish, 'Z', 0.1);
         return p;
       },
       "stand"},
      {"straight down into solid",
       [](Programs p) {
         p.rough = with_lines(p.rough, after_start(p.rough),
                              {"G0 X0.0000 Y0.0000", "G1 Z26.0000 F300", "G0 Z35.0000"});
         return p;
       },
       "straight down"},
      {"beyond the travel across",
       [](Programs p) {
         p.rough = with_lines(p.rough, after_start(p.rough), {"G0 X400.0000 Y0.0000"});
         return p;
       },
       "travel"},
      {"beyond the travel up",
       [](Programs p) {
         p.rough = with_lines(p.rough, after_start(p.rough), {"G0 Z120.0000"});
         return p;
       },
       "travel"},
      {"deep into the spoilboard",
       [](Programs p) {
         const auto all = spiral(p.finish);
         p.finish = with_lines(p.finish, all.back() + 1, {"G1 Z-9.0000 F300"});
         return p;
       },
       "no lower"},
      {"sideways before up",
       [](Programs p) {
         for (std::size_t i = 0; i < p.rough.size(); ++i)
           if (is_motion(p.rough[i])) {
             p.rough.erase(p.rough.begin() + static_cast<std::ptrdiff_t>(i));
             break;
           }
         return p;
       },
       "height"},
      {"inches all through",
       [](Programs p) {
         p.finish = replaced(p.finish, "G21", "G20");
         return p;
       },
       ""},
  };
  return faults;
}

TEST(Trial, FindsPlantedFaults) {
  for (const Planted& fault : planted_limits()) {
    SCOPED_TRACE(fault.name);
    const auto trial = tried(fault.plant(own_programs()));
    ASSERT_TRUE(trial) << trial.fault().line();
    ASSERT_FALSE(trial->broken.empty());
    std::string all;
    for (const std::string& sentence : trial->broken) all += sentence + "\n";
    EXPECT_NE(all.find(fault.word), std::string::npos) << all;
  }
}

// What cannot be read is refused with its line (NISTIR 6556, sections named in tests/simulation).
TEST(Trial, RefusesProgramsThatCannotBeRead) {
  const std::vector<std::pair<const char*, std::function<Programs(Programs)>>> faults = {
      {"an arc 0.003 off",
       [](Programs p) {
         for (std::string& line : p.rough)
           if (line.rfind("G2", 0) == 0 && line[2] == ' ') {
             line = with_word(line, 'I', *word(line, 'I') + 0.0031);
             return p;
           }
         throw std::runtime_error("no arc in the roughing program");
       }},
      {"units that change",
       [](Programs p) {
         return Programs{p.rough, with_lines(p.finish, spiral(p.finish)[5], {"G20"})};
       }},
      {"another plane",
       [](Programs p) {
         return Programs{p.rough, replaced(p.finish, "G17", "G18")};
       }},
      {"no end",
       [](Programs p) {
         p.finish.resize(p.finish.size() / 2);
         return p;
       }},
      {"no feed",
       [](Programs p) {
         for (std::string& line : p.finish)
           if (line[0] != '(') line = line.substr(0, line.find(" F"));
         return p;
       }},
      {"nested comments",
       [](Programs p) {
         return Programs{p.rough, with_lines(p.finish, 3, {"(a (b) c)"})};
       }},
      {"a line of 10,000 characters",
       [](Programs p) {
         return Programs{p.rough, with_lines(p.finish, 3, {std::string(10'000, '1')})};
       }},
      {"garbage",
       [](Programs p) {
         return Programs{p.rough, {std::string("\x7f\x45LF\x02\x00\x01", 7)}};
       }},
  };
  for (const auto& [name, plant] : faults) {
    SCOPED_TRACE(name);
    const auto trial = tried(plant(own_programs()));
    ASSERT_FALSE(trial);
    EXPECT_EQ(trial.fault().exit, ExitCode::order) << trial.fault().line();
    EXPECT_NE(trial.fault().where.find(".ngc:"), std::string::npos) << trial.fault().line();
  }
}

TEST(Trial, NeedsAMillAndOneSetUp) {
  const std::string no_mill = test::milled_pad.substr(0, test::milled_pad.find("[mill]"));
  const auto without = tried(own_programs(), no_mill);
  ASSERT_FALSE(without);
  EXPECT_NE(without.fault().line().find("[mill]"), std::string::npos);
  const auto unknown =
      try_programs(test::read_order(test::milled_pad), {{"p.ngc", test::text_of(own_programs().finish)}},
                   "tier-9", test::own_profiles());
  ASSERT_FALSE(unknown);
  EXPECT_NE(unknown.fault().line().find("one"), std::string::npos) << unknown.fault().line();
  // A program that does not say where it belongs, and an order with several set-ups.
  const auto several = try_programs(test::read_order(test::milled_block),
                                    {{"p.ngc", "G21 G17 G90 G94\nG0 Z40\nM2\n"}}, "", test::own_profiles());
  ASSERT_FALSE(several);
  EXPECT_NE(several.fault().line().find("tier-1"), std::string::npos) << several.fault().line();
}

// Programs of one tier among several say themselves where they belong; those of two do not go together.
TEST(Trial, ProgramsTellTheirSetUp) {
  const Milled& made = test::milled_once(test::milled_block);
  const auto& third = made.setups.at(2).programs;
  const order::Order order = test::read_order(test::milled_block);
  const auto trial =
      try_programs(order, {{"a.ngc", third[0].text}, {"b.ngc", third[1].text}, {"c.ngc", third[2].text}}, "",
                   test::own_profiles());
  ASSERT_TRUE(trial) << trial.fault().line();
  EXPECT_EQ(trial->setup, "tier-3");
  EXPECT_TRUE(trial->broken.empty()) << trial->broken.front();
  const auto mixed =
      try_programs(order, {{"a.ngc", third[0].text}, {"b.ngc", made.setups[0].programs[1].text}}, "",
                   test::own_profiles());
  ASSERT_FALSE(mixed);
  EXPECT_NE(mixed.fault().line().find("two set-ups"), std::string::npos) << mixed.fault().line();
}

// An order's name cannot pass for the head of a program.
TEST(Trial, NamesDoNotSpeakForTheProgram) {
  const std::string text = std::string("name = \"x) pass: drill (set-up: tier-9, \"\n") +
                           test::milled_pad.substr(test::milled_pad.find('\n') + 1);
  const auto made = test::milled(text);
  ASSERT_TRUE(made) << made.fault().line();
  const auto trial = try_programs(test::read_order(text),
                                  {{"a.ngc", (*made)->setups.front().programs[0].text},
                                   {"b.ngc", (*made)->setups.front().programs[1].text}},
                                  "", test::own_profiles());
  ASSERT_TRUE(trial) << trial.fault().line();
  EXPECT_TRUE(trial->broken.empty()) << trial->broken.front();
  EXPECT_EQ(trial->setup, "one");
}

}  // namespace
}  // namespace crownwright::making
