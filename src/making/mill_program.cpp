#include "making/mill_program.h"

#include "base/length.h"
#include "making/write.h"
#include "milling/ngc.h"

namespace crownwright::making {
namespace {

constexpr char pass_label[] = "pass: ";
constexpr char setup_label[] = "set-up: ";

std::string mm_words(double value) { return number_text(value, 2); }

std::string box_words(const milling::Box& box) {
  return std::string("stock: X ")
      .append(mm_words(box.x0) + " to " + mm_words(box.x1))
      .append(", Y " + mm_words(box.y0) + " to " + mm_words(box.y1))
      .append(", Z " + mm_words(box.z0) + " to " + mm_words(box.z1) + " mm");
}

std::string way_words(const milling::Setup& setup) {
  if (!setup.flipped) return "lies foot side down";
  return "lies upside down, turned over about X: its wide face down";
}

const milling::Feeds& feeds_of(const milling::Job& job, Pass pass) {
  if (pass == Pass::rough) return job.rough_feeds;
  return pass == Pass::finish ? job.finish_feeds : job.drill_feeds;
}

std::string time_words(const milling::Duration& duration) {
  return std::string("about ")
      .append(number_text(duration.seconds / 60, 1))
      .append(" minutes, ")
      .append(number_text(duration.path_mm / 1000, 1))
      .append(" m of path, ")
      .append(number_text(duration.rapid_mm / 1000, 1))
      .append(" m of it rapid");
}

std::vector<std::string> head_notes(const order::Order& order, const ProgramQuestion& q,
                                    const MilledProgram& program) {
  const milling::Feeds& feeds = feeds_of(q.job, q.pass);
  std::vector<std::string> notes = {
      std::string("crownwright ").append(order_mark(order)),
      std::string(setup_label).append(setup_name(q.setup)).append(", ").append(way_words(q.setup)),
      std::string(pass_label).append(pass_word(q.pass)),
      std::string("tool: ").append(program.tool),
      std::string("order: ").append(order.name),
      box_words(q.setup.stock),
      "origin: X0 Y0 the form's axis, Z0 the stock's lower face: the spoilboard",
      "Z is that of the tool's tip, mm",
      std::string("material: ")
          .append(q.job.material)
          .append(", spindle ")
          .append(number_text(feeds.spindle, 0))
          .append(" turns a minute, feed ")
          .append(number_text(q.pass == Pass::drill ? feeds.plunge : feeds.cut, 0))
          .append(" mm/min"),
      time_words(program.duration),
  };
  if (q.pass != Pass::drill) {
    notes.push_back("climb milling: clockwise round the form, seen from above");
    notes.push_back("path blending may round corners: use exact path where the machine has it");
  }
  for (const std::string& caution : mill_cautions())
    notes.push_back(std::string("caution: ").append(caution));
  return notes;
}

milling::Dialect dialect_of(const order::Order& order) {
  return order.mill->dialect == order::NgcDialect::plain ? milling::Dialect::plain : milling::Dialect::rs274;
}

}  // namespace

MilledProgram program_of(const order::Order& order, const ProgramQuestion& question,
                         const milling::Path& path) {
  MilledProgram program;
  program.pass = question.pass;
  const std::string& name = question.setup.name;
  program.ending = std::string(name.empty() ? "" : ".")
                       .append(name)
                       .append(".")
                       .append(pass_word(question.pass))
                       .append(".ngc");
  program.tool = tool_words(question.job, question.pass);
  milling::MachinePace pace;
  pace.accel = question.job.accel;
  program.duration = milling::duration_of(path, pace);
  const milling::ProgramHead head{head_notes(order, question, program),
                                  feeds_of(question.job, question.pass).spindle};
  program.text = milling::ngc_text(head, path, dialect_of(order));
  return program;
}

std::optional<Pass> pass_of(const std::vector<std::string>& comments) {
  for (const std::string& comment : comments) {
    for (const Pass pass : {Pass::rough, Pass::finish, Pass::drill}) {
      if (comment == std::string(pass_label).append(pass_word(pass))) return pass;
    }
  }
  return std::nullopt;
}

std::string setup_of(const std::vector<std::string>& comments) {
  for (const std::string& comment : comments) {
    if (!comment.starts_with(setup_label)) continue;
    const auto from = std::string(setup_label).size();
    return comment.substr(from, comment.find(',') - from);
  }
  return {};
}

}  // namespace crownwright::making
