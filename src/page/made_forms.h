#pragma once
// The files of an order, made as `make` makes them and kept for a while: who takes several of them waits
// once.

#include <cstddef>
#include <functional>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "base/result.h"
#include "order/order.h"
#include "page/private_folder.h"
#include "workshop/profiles.h"

namespace crownwright::page {

struct MadeFile {
  std::string name;  ///< "market-beret.stl"; of a run of sizes also "market-beret-S/market-beret-S.stl"
  std::string bytes;
};

struct MadeForm {
  std::string stem;
  std::vector<MadeFile> files;  ///< in the order in which they were written
};

/// Makes, proves and writes the order's form, or every size of its run, in the folder and reads the files
/// back. `order` may hold paths in that folder: they are taken out of what is written, so that the bytes are
/// those of an order beside its drawing. Faults: as making::make_form; of a run that of the first size that
/// cannot be made.
Result<MadeForm> made_form(const order::Order& order, const std::string& stem,
                           const workshop::ProfileFolder& profiles, const PrivateFolder& folder);

/// All files in a folder of the stem's name, as one ZIP archive: same form, same bytes.
std::string zip_of(const MadeForm& made);

/// The last few results. Safe to ask from several threads: forms are made one after the other.
class MadeForms {
 public:
  static constexpr std::size_t most_forms = 4;
  static constexpr std::size_t most_bytes = 200'000'000;  ///< of all kept together; a larger one is not kept

  using Made = std::shared_ptr<const MadeForm>;

  /// The result under that key, or what `make` makes of it. Faults are not kept.
  Result<Made> get(const std::string& key, const std::function<Result<MadeForm>()>& make);
  std::size_t kept() const;

 private:
  struct Kept {
    std::string key;
    Made made;
    std::size_t bytes;
  };
  Made found(const std::string& key);
  void keep(const std::string& key, Made made);

  mutable std::mutex mutex_;  ///< of the list
  std::mutex making_;         ///< one form at a time
  std::list<Kept> kept_;      ///< the latest used first
};

}  // namespace crownwright::page
