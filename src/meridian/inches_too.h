#pragma once
// Refusals are worded far below the order that says in which unit its person thinks. Who asks for someone
// that writes in inches says so for the time of the question; nothing else hangs on it, and never a file.

namespace crownwright::meridian {

/// While one lives, the lengths that mm_text and its like word on this thread carry their inches:
/// "45.9 mm (1.81 in)". Not copied, not handed to another thread.
class InchesToo {
 public:
  explicit InchesToo(bool wanted);
  ~InchesToo();
  InchesToo(const InchesToo&) = delete;
  InchesToo& operator=(const InchesToo&) = delete;

  static bool are_wanted();

 private:
  bool before_;
};

}  // namespace crownwright::meridian
