#pragma once
// How the form comes out of the beret, and how it is printed.

#include <optional>

#include "base/result.h"
#include "making/fit_of.h"
#include "making/printed.h"
#include "making/released.h"
#include "making/values.h"

namespace crownwright::making {

struct Apart {
  std::optional<Released> released;  ///< blocks alone
  Printed printed;
};

/// Faults as release_of and print_of.
Result<Apart> take_apart(const order::Order& order, const SolvedValues& solved,
                         const PrintedQuestion& question, const std::optional<FormFit>& fit,
                         const workshop::ProfileFolder& profiles);

}  // namespace crownwright::making
