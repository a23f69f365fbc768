#include "page/workbench.h"

#include <time.h>

#include <new>
#include <optional>

#include "base/printable.h"
#include "making/preview.h"
#include "meridian/inches_too.h"
#include "page/attachments.h"
#include "page/flat_order.h"
#include "page/json_text.h"
#include "page/preview_json.h"
#include "page/private_folder.h"
#include "page/request.h"
#include "page/workshop_json.h"

namespace crownwright::page {
namespace {

constexpr int bad_json = 400, not_makeable = 422, our_fault = 500;

/// CPU milliseconds of this thread.
double thread_ms() {
  timespec time{};
  ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
  return 1e3 * static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_nsec);
}

// Whatever goes wrong on the way is an answer, too.
template <class Work>
Answer answered(Work work) {
  try {
    return work();
  } catch (const std::bad_alloc&) {
    return refused(our_fault, {ExitCode::internal, "", "there is not enough memory for this form",
                               "a coarser chord tolerance or fewer vents need less"});
  } catch (const std::exception& error) {
    return refused(our_fault, {ExitCode::internal, "",
                               std::string("a fault of the program itself: ") + error.what(), ""});
  }
}

// A field that must be a text.
Result<std::string> text_field(const JsonValue& request, const std::string& name) {
  const JsonValue* value = request.field(name);
  if (value == nullptr || value->kind != JsonKind::text)
    return order_fault(name, "\"" + name + "\" is missing or no text", "{\"" + name + "\": \"...\"}");
  return value->text;
}

/// An order that came with its files.
struct Question {
  JsonValue flat;
  Attachments attachments;
  WrittenOrder written;
};

Result<Question> question_of(const JsonValue& request) {
  const JsonValue* flat = request.field("order");
  if (flat == nullptr) return order_fault("order", "\"order\" is missing", "{\"order\": {...}}");
  auto attachments = read_attachments(request.field("attachments"));
  if (!attachments) return attachments.fault();
  auto named = with_attachments(*flat, *attachments);
  if (!named) return named.fault();
  auto written = written_order(*named);
  if (!written) return written.fault();
  return Question{*std::move(named), *std::move(attachments), *std::move(written)};
}

/// The order with its files unpacked, where it has any.
struct Unpacked {
  std::optional<PrivateFolder> folder;
  std::optional<order::Order> order;

  std::string without_folder(std::string text) const {
    return folder ? folder->without_path(std::move(text)) : text;
  }
  Fault without_folder(Fault fault) const {
    return {fault.exit, without_folder(fault.where), without_folder(fault.what),
            without_folder(fault.allowed)};
  }
};

Result<Done> unpack_order(const Question& question, bool needs_folder, Unpacked& unpacked) {
  if (needs_folder || !question.attachments.empty()) {
    auto folder = PrivateFolder::make();
    if (!folder) return folder.fault();
    unpacked.folder.emplace(*std::move(folder));
    if (const auto done = unpack(question.attachments, *unpacked.folder); !done) return done.fault();
  }
  const bool from_folder = !question.attachments.empty();
  auto order = order_of(question.written, from_folder ? unpacked.folder->path() : std::string());
  if (!order) return order.fault();
  unpacked.order = *std::move(order);
  return Done{};
}

Result<std::string> preview_answer(const JsonValue& request, const workshop::ProfileFolder& profiles) {
  const JsonValue* view = request.field("view");
  const bool parts = view != nullptr && view->text == "parts";
  if (view != nullptr && !parts && view->text != "form")
    return order_fault("view", "there is no such view", "\"form\" or \"parts\"");
  const auto question = question_of(request);
  if (!question) return question.fault();
  Unpacked unpacked;
  if (const auto done = unpack_order(*question, false, unpacked); !done)
    return unpacked.without_folder(done.fault());
  const std::string unit = unit_of(question->flat);
  const meridian::InchesToo inches_too(unit == "in");
  const double start = thread_ms();
  const auto preview = making::make_preview(*unpacked.order, profiles);
  if (!preview) return unpacked.without_folder(preview.fault());
  const auto fields = preview_fields(*preview, parts ? View::parts : View::form, unit == "in");
  if (!fields) return unpacked.without_folder(fields.fault());
  JsonFields all = {{"ok", "true"}, {"toml", json_text(question->written.toml)}, {"unit", json_text(unit)}};
  all.insert(all.end(), fields->begin(), fields->end());
  all.emplace_back("core_ms", json_number(thread_ms() - start, 1));
  return unpacked.without_folder(json_object(all) + "\n");
}

Answer json_answer(std::string body) { return {200, "application/json", std::move(body), ""}; }

std::string type_of(const std::string& name) {
  const auto ends = [&](const char* ending) { return name.ends_with(ending); };
  if (ends(".stl")) return "model/stl";
  if (ends(".3mf")) return "model/3mf";
  if (ends(".glb")) return "model/gltf-binary";
  if (ends(".svg")) return "image/svg+xml";
  if (ends(".png")) return "image/png";
  if (ends(".pdf")) return "application/pdf";
  if (ends(".html")) return "text/html; charset=utf-8";
  if (ends(".json")) return "application/json";
  return "application/octet-stream";
}

// Everything that the files depend on.
std::string key_of(const Question& question) {
  std::string key = question.written.stem + "\n" + question.written.toml;
  for (const auto& [path, file] : question.attachments)
    key += "\n" + path + "\n" + file.name + "\n" + std::to_string(file.bytes.size()) + "\n" + file.bytes;
  return key;
}

Result<MadeForm> make_question(const Question& question, const workshop::ProfileFolder& profiles) {
  Unpacked unpacked;
  if (const auto done = unpack_order(question, true, unpacked); !done)
    return unpacked.without_folder(done.fault());
  auto made = made_form(*unpacked.order, question.written.stem, profiles, *unpacked.folder);
  if (!made) return unpacked.without_folder(made.fault());
  return made;
}

Result<MadeForms::Made> made_of(const JsonValue& request, const workshop::ProfileFolder& profiles,
                                MadeForms& forms) {
  const auto question = question_of(request);
  if (!question) return question.fault();
  return forms.get(key_of(*question), [&] { return make_question(*question, profiles); });
}

Answer one_file(const MadeForm& made, const std::string& ending) {
  for (const MadeFile& file : made.files)
    if (file.name == made.stem + ending) return {200, type_of(file.name), file.bytes, file.name};
  std::string endings;
  for (const MadeFile& file : made.files)
    if (file.name.starts_with(made.stem + "."))
      endings += (endings.empty() ? "" : ", ") + file.name.substr(made.stem.size());
  return refused(not_makeable,
                 order_fault("ending", "this order gives no file \"" + printable(ending, 60) + "\"",
                             "one of " + endings));
}

}  // namespace

Answer refused(int status, const Fault& fault) { return {status, "application/json", fault_json(fault), ""}; }

Answer Workbench::workshop() const {
  return answered([&] {
    auto json = workshop_json(profiles_);
    return json ? json_answer(*std::move(json)) : refused(our_fault, json.fault());
  });
}

Answer Workbench::preview(std::string_view request) const {
  return answered([&] {
    const auto asked = read_request(request);
    if (!asked) return refused(bad_json, asked.fault());
    auto body = preview_answer(*asked, profiles_);
    return json_answer(body ? *std::move(body) : fault_json(body.fault()));
  });
}

Answer Workbench::open(std::string_view request) const {
  return answered([&] {
    const auto asked = read_request(request);
    if (!asked) return refused(bad_json, asked.fault());
    const auto toml = text_field(*asked, "toml");
    if (!toml) return json_answer(fault_json(toml.fault()));
    const auto flat = flat_order(*toml);
    if (!flat) return json_answer(fault_json(flat.fault()));
    return json_answer(json_object({{"ok", "true"}, {"order", json_of(*flat)}}) + "\n");
  });
}

Answer Workbench::save(std::string_view request) const {
  return answered([&] {
    const auto asked = read_request(request);
    if (!asked) return refused(bad_json, asked.fault());
    const JsonValue* flat = asked->field("order");
    if (flat == nullptr)
      return json_answer(fault_json(order_fault("order", "\"order\" is missing", "{\"order\": {...}}")));
    const auto written = written_order(*flat);
    if (!written) return json_answer(fault_json(written.fault()));
    // Files that it names are not looked at: the order is read as text alone.
    if (const auto order = order_of(*written, ""); !order) return json_answer(fault_json(order.fault()));
    return json_answer(json_object({{"ok", "true"},
                                    {"toml", json_text(written->toml)},
                                    {"file", json_text(written->stem + ".toml")}}) +
                       "\n");
  });
}

Answer Workbench::make(std::string_view request) {
  return answered([&] {
    const auto asked = read_request(request);
    if (!asked) return refused(bad_json, asked.fault());
    const auto made = made_of(*asked, profiles_, made_);
    if (!made) return refused(not_makeable, made.fault());
    return Answer{200, "application/zip", zip_of(**made), (*made)->stem + ".zip"};
  });
}

Answer Workbench::file(std::string_view request) {
  return answered([&] {
    const auto asked = read_request(request);
    if (!asked) return refused(bad_json, asked.fault());
    const auto ending = text_field(*asked, "ending");
    if (!ending) return refused(not_makeable, ending.fault());
    const auto made = made_of(*asked, profiles_, made_);
    if (!made) return refused(not_makeable, made.fault());
    return one_file(**made, *ending);
  });
}

}  // namespace crownwright::page
