#pragma once
// A page of labelled lines for the terminal: labels on the left, text wrapped beside them.

#include <string>

#include "report/paint.h"

namespace crownwright::report {

/// How a label is painted.
enum class Tone { plain, good, bad, mind };

class Page {
 public:
  static constexpr int width = 80;        ///< columns, chosen: the narrowest common terminal
  static constexpr int label_width = 11;  ///< columns before the text

  explicit Page(Paint paint) : paint_(paint) {}
  /// A line by itself, never wrapped.
  Page& heading(const std::string& text);
  /// The text is broken at blanks; words longer than a line stand out over the margin. Control characters are
  /// escaped. An empty label goes on under the one above.
  Page& line(const std::string& label, const std::string& text, Tone tone = Tone::plain);
  /// As line, but never broken: for paths.
  Page& whole(const std::string& label, const std::string& text);
  Page& gap();
  const std::string& text() const { return text_; }

 private:
  std::string painted(const std::string& label, Tone tone) const;
  Paint paint_;
  std::string text_;
};

/// Columns that well-formed UTF-8 takes, one a character (no wide characters are known).
int columns(const std::string& text);

}  // namespace crownwright::report
