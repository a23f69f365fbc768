#include "making/whole_form.h"

#include "making/marks_of.h"
#include "mesh/mesher.h"
#include "proof/prover.h"

namespace crownwright::making {

using order::Order;

// A form with marks or posts is not made ring by ring.
Result<proof::Proven> whole_form(const Order& order, const solid::Solid& solid,
                                 const std::vector<parts::Post>& posts, double tolerance) {
  // A puzzle block's collar is its ring, whose marks would not be those of the form.
  const auto marks = order.puzzle ? Result(std::optional<parts::Marks>()) : marks_of(order, solid, {});
  if (!marks) return marks.fault();
  if (posts.empty() && !*marks) {
    auto built = mesh::build_mesh(solid, tolerance);
    if (!built) return built.fault();
    return proof::Prover::prove(std::move(*built), solid, tolerance);
  }
  // Made face by face, both faces of the wall may err towards each other.
  auto part = parts::form_with_posts(solid, posts, tolerance / 2, marks->value_or(parts::Marks{}));
  if (!part) return part.fault();
  return proof::Prover::prove_form(std::move(part->mesh), part->pieces, part->genus, solid, tolerance);
}

}  // namespace crownwright::making
