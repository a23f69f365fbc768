#include "bench/candidates.h"

#include <stdexcept>

#include "bench/corefined_work.h"
#include "bench/corefinement.h"
#include "bench/plain_grid.h"
#include "files/mesh_writer.h"
#include "making/form.h"
#include "making/preview.h"
#include "mesh/mesher.h"
#include "proof/prover.h"

namespace crownwright::bench {
namespace {

void write_stl(const mesh::TriangleMesh& mesh, const std::string& path) {
  files::WriteRules rules;
  rules.replace = files::Replace::force;
  const auto file = must(files::WholeFile::create(path, rules));
  files::put_mesh(mesh, files::MeshKind::stl, "bench", *file);
  must(file->finish());
}

solid::Solid planned(const order::Order& order) {
  return must(making::plan_solid(order, must(workshop::find_profile_folder(""))));
}

class FromOrder : public Candidate {
 public:
  explicit FromOrder(const CandidateInput& input) : input_(input), order_(order_of(input.work)) {}
  void pass() override {
    const auto built = must(mesh::build_mesh(planned(order_), order_.mesh.chord_tolerance.mm()));
    write_stl(built.mesh, input_.path);
    triangles_ = built.mesh.triangles.size();
  }
  std::size_t triangles() const override { return triangles_; }

 private:
  CandidateInput input_;
  order::Order order_;
  std::size_t triangles_ = 0;
};

class MeshInMemory : public Candidate {
 public:
  explicit MeshInMemory(const CandidateInput& input) : order_(order_of(input.work)) {}
  void pass() override {
    triangles_ =
        must(mesh::build_mesh(planned(order_), order_.mesh.chord_tolerance.mm())).mesh.triangles.size();
  }
  std::size_t triangles() const override { return triangles_; }

 private:
  order::Order order_;
  std::size_t triangles_ = 0;
};

class PagePreview : public Candidate {
 public:
  explicit PagePreview(const CandidateInput& input)
      : order_(order_of(input.work)), profiles_(must(workshop::find_profile_folder(""))) {}
  void pass() override { triangles_ = must(making::make_preview(order_, profiles_)).mesh.triangles.size(); }
  std::size_t triangles() const override { return triangles_; }

 private:
  order::Order order_;
  workshop::ProfileFolder profiles_;
  std::size_t triangles_ = 0;
};

class FromChain : public Candidate {
 public:
  explicit FromChain(const CandidateInput& input) : input_(input) {}
  void pass() override {
    const auto built = must(mesh::build_mesh(three_arc_solid(input_.work), input_.work.tolerance));
    write_stl(built.mesh, input_.path);
    triangles_ = built.mesh.triangles.size();
  }
  std::size_t triangles() const override { return triangles_; }

 private:
  CandidateInput input_;
  std::size_t triangles_ = 0;
};

class Corefined : public Candidate {
 public:
  explicit Corefined(const CandidateInput& input) : path_(input.path) {
    const solid::Solid solid = planned(order_of(input.work));
    const auto shell = must(mesh::build_mesh(without_vents(solid), input.shell_tolerance));
    corefinement_ = std::make_unique<Corefinement>(shell.mesh, vent_cylinders(solid, input.work.tolerance));
  }
  void prepare() override { corefinement_->prepare(); }
  void pass() override {
    const mesh::TriangleMesh mesh = corefinement_->cut();
    write_stl(mesh, path_);
    triangles_ = mesh.triangles.size();
  }
  std::size_t triangles() const override { return triangles_; }

 private:
  std::string path_;
  std::unique_ptr<Corefinement> corefinement_;
  std::size_t triangles_ = 0;
};

class Grid : public Candidate {
 public:
  explicit Grid(const CandidateInput& input)
      : path_(input.path),
        solid_(planned(order_of(input.work))),
        grid_(solid_, input.work.tolerance, input.plain_triangles) {}
  void pass() override { grid_.write(path_); }
  std::size_t triangles() const override { return grid_.triangles(); }

 private:
  std::string path_;
  solid::Solid solid_;
  PlainGrid grid_;
};

class Proof : public Candidate {
 public:
  explicit Proof(const CandidateInput& input)
      : solid_(planned(order_of(input.work))),
        tolerance_(input.work.tolerance),
        built_(must(mesh::build_mesh(solid_, tolerance_))) {}
  void pass() override {
    const proof::Verdict verdict = proof::Prover::judge(built_, solid_, tolerance_);
    for (const proof::Check& check : verdict.checks) {
      if (!check.passed) throw std::runtime_error("not proved: " + check.name + ": " + check.detail);
    }
  }
  std::size_t triangles() const override { return built_.mesh.triangles.size(); }

 private:
  solid::Solid solid_;
  double tolerance_;
  mesh::BuiltMesh built_;
};

class CrossingTest : public Candidate {
 public:
  explicit CrossingTest(const CandidateInput& input) {
    const auto built = must(mesh::build_mesh(planned(order_of(input.work)), input.work.tolerance));
    triangles_ = built.mesh.triangles.size();
    test_ = std::make_unique<PlainTest>(built.mesh);
  }
  void pass() override {
    if (test_->crosses()) throw std::runtime_error("facets cross");
  }
  std::size_t triangles() const override { return triangles_; }

 private:
  std::unique_ptr<PlainTest> test_;
  std::size_t triangles_ = 0;
};

}  // namespace

std::unique_ptr<Candidate> make_candidate(const std::string& name, const CandidateInput& input) {
  if (name == "order") return std::make_unique<FromOrder>(input);
  if (name == "mesh") return std::make_unique<MeshInMemory>(input);
  if (name == "page preview") return std::make_unique<PagePreview>(input);
  if (name == "chain") return std::make_unique<FromChain>(input);
  if (name == "corefined") return std::make_unique<Corefined>(input);
  if (name == "grid") return std::make_unique<Grid>(input);
  if (name == "proof") return std::make_unique<Proof>(input);
  if (name == "plain test") return std::make_unique<CrossingTest>(input);
  throw std::logic_error("no candidate of this name: " + name);
}

}  // namespace crownwright::bench
