#include "workshop/printer.h"

#include "workshop/profile_fields.h"

namespace crownwright::workshop {

// From a bed that takes a collar ring's quarter to the largest that stands in a workshop; nozzles from the
// finest sold to those for pellets.
Result<PrinterProfile> find_printer(const ProfileFolder& folder, const std::string& name) {
  return read_profile<PrinterProfile>(folder, "printers", name, "printer",
                                      [](ProfileFields& fields, PrinterProfile& printer) {
                                        printer.summary = fields.text("summary");
                                        printer.width = fields.length("width", 50, 2000);
                                        printer.depth = fields.length("depth", 50, 2000);
                                        printer.height = fields.length("height", 30, 2000);
                                        printer.nozzle = fields.length("nozzle", 0.1, 2);
                                      });
}

Result<std::vector<PrinterProfile>> list_printers(const ProfileFolder& folder) {
  return read_all_profiles<PrinterProfile>(folder, "printers", find_printer);
}

}  // namespace crownwright::workshop
