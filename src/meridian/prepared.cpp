#include "meridian/prepared.h"

#include "meridian/segment_forms.h"

namespace crownwright::meridian {

PreparedSegment::PreparedSegment(const Segment& segment)
    : segment_(segment), length_(segment.length()), tangent_(start_tangent(segment)) {
  if (segment.is_arc()) mismatch_ = segment.to() - forward(segment, tangent_, segment.turn());
}

Point PreparedSegment::at(double s) const {
  if (s <= 0) return segment_.from();
  if (s >= length_) return segment_.to();
  const double share = s / length_;
  if (!segment_.is_arc()) return segment_.from() + share * (segment_.to() - segment_.from());
  return forward(segment_, tangent_, share * segment_.turn()) + share * mismatch_;
}

Point PreparedSegment::tangent_at(double s) const {
  if (!segment_.is_arc()) return tangent_;
  const double share = std::clamp(s / length_, 0.0, 1.0);
  return rotated(tangent_, share * segment_.turn());
}

double PreparedSegment::distance_to(Point p) const {
  return segment_.is_arc() ? distance_to_arc(segment_, tangent_, p)
                           : distance_to_line(segment_, length_, tangent_, p);
}

Point PreparedChain::at(double s) const {
  for (const PreparedSegment& segment : segments_) {
    if (s <= segment.length()) return segment.at(s);
    s -= segment.length();
  }
  return segments_.back().at(segments_.back().length());
}

}  // namespace crownwright::meridian
