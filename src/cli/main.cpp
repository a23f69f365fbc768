#include "cli/program.h"
#include "cli/signals.h"
#include "files/mesh_reader.h"

int main(int argc, char** argv) {
  // A reader's child does its one piece of work and nothing else.
  if (const auto exit_code = crownwright::files::run_as_reader_child(argc, argv)) return *exit_code;
  crownwright::cli::install_signal_handlers();
  return crownwright::cli::run_program(argc, argv, CROWNWRIGHT_VERSION);
}
