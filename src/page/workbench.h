#pragma once
// The page's questions and their answers, without a network: text in, text out.

#include <string>
#include <string_view>

#include "page/made_forms.h"
#include "workshop/profiles.h"

namespace crownwright::page {

/// What goes back to the page.
struct Answer {
  int status = 200;  ///< as HTTP counts them
  std::string type = "application/json";
  std::string body;
  std::string file_name{};  ///< not empty: to be saved under this name
};

/// {"ok": false, "fault": ...} with that status.
Answer refused(int status, const Fault& fault);

/// Safe to ask from several threads. Nothing is thrown; no path from a question is ever opened.
class Workbench {
 public:
  explicit Workbench(workshop::ProfileFolder profiles) : profiles_(std::move(profiles)) {}

  Answer workshop() const;
  /// 200 with the preview or with the fault of the order; 400: no JSON.
  Answer preview(std::string_view request) const;
  Answer open(std::string_view request) const;
  Answer save(std::string_view request) const;
  /// 200 with the files, 422 with the fault of the order; 400: no JSON.
  Answer make(std::string_view request);
  Answer file(std::string_view request);

 private:
  workshop::ProfileFolder profiles_;
  MadeForms made_;
};

}  // namespace crownwright::page
