#pragma once
// Whose head is that? A girth outside what people have is worth a question, not a refusal: blocks are also
// made for dolls, wigs and thick hair.

#include <optional>
#include <string>

#include "base/length.h"

namespace crownwright::measurements {

/// Nothing when the girth lies between the two bounds below, both included; otherwise one sentence with the
/// girth, the bound and its source.
/// Lower: 316.5 mm, 3rd percentile of newborn girls (WHO Child Growth Standards: head circumference-for-age,
/// 2007). Upper: 614.2 mm, 99th percentile of men (ANSUR II, NATICK/TR-15/007, 2014, measured 2012; n = 4082,
/// linear percentiles).
std::optional<std::string> head_warning(const Length& girth);

/// "nearest to adult men's 50th percentile, 574 mm": the published head whose girth is nearest, among medians
/// from birth to five years (WHO) and the 5th, 50th and 95th percentiles of women and men (ANSUR II). For
/// reports.
std::string describe_head(const Length& girth);

}  // namespace crownwright::measurements
