#pragma once
// Plain measurements of a solid's walks, by sampling.

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <charconv>
#include <numbers>
#include <string>
#include <vector>

#include "solid/solid.h"

namespace crownwright::solid {

/// Roles along a walk, repeats left out.
inline std::vector<Role> role_order(const Shell& shell) {
  std::vector<Role> order;
  for (const Role role : shell.roles) {
    if (order.empty() || order.back() != role) order.push_back(role);
  }
  return order;
}

/// -pi * integral of r^2 dz, by adaptive quadrature.
inline double quadrature_volume(const Solid& solid) {
  double sum = 0;
  for (const Shell& shell : solid.shells) {
    for (const auto& s : shell.walk) {
      const auto slice = [&](double u) {
        return -std::numbers::pi * s.at(u).r * s.at(u).r * s.tangent_at(u).z;
      };
      sum += boost::math::quadrature::gauss_kronrod<double, 31>::integrate(slice, 0.0, s.length(), 8, 1e-14);
    }
  }
  return sum;
}

inline double quadrature_area(const Solid& solid) {
  double sum = 0;
  for (const Shell& shell : solid.shells) {
    for (const auto& s : shell.walk) {
      const auto strip = [&](double u) { return 2 * std::numbers::pi * s.at(u).r; };
      sum += boost::math::quadrature::gauss_kronrod<double, 31>::integrate(strip, 0.0, s.length(), 8, 1e-14);
    }
  }
  return sum;
}

/// Points of the walk, each segment in `parts` equal steps.
inline std::vector<meridian::Point> polyline(const Shell& shell, int parts) {
  std::vector<meridian::Point> points;
  for (const auto& s : shell.walk) {
    for (int k = 0; k < parts; ++k) points.push_back(s.at(s.length() * k / parts));
  }
  points.push_back(shell.walk.back().to());
  return points;
}

inline double turn_of(meridian::Point a, meridian::Point b, meridian::Point c) {
  return (b.r - a.r) * (c.z - a.z) - (b.z - a.z) * (c.r - a.r);
}

/// No two parts of the walks properly cross.
inline bool is_simple(const Solid& solid) {
  std::vector<std::pair<meridian::Point, meridian::Point>> pieces;
  for (const Shell& shell : solid.shells) {
    const auto points = polyline(shell, 24);
    for (std::size_t i = 0; i + 1 < points.size(); ++i) pieces.emplace_back(points[i], points[i + 1]);
  }
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < pieces.size(); ++j) {
      const auto& [a, b] = pieces[i];
      const auto& [c, d] = pieces[j];
      if (turn_of(a, b, c) * turn_of(a, b, d) < 0 && turn_of(c, d, a) * turn_of(c, d, b) < 0) return false;
    }
  }
  return true;
}

/// Segments whose role is wanted.
inline meridian::Chain chain_of(const Solid& solid, const std::vector<Role>& wanted) {
  meridian::Chain chain;
  for (const Shell& shell : solid.shells) {
    for (std::size_t i = 0; i < shell.walk.size(); ++i) {
      if (std::find(wanted.begin(), wanted.end(), shell.roles[i]) != wanted.end())
        chain.push_back(shell.walk[i]);
    }
  }
  return chain;
}

/// Least and greatest of the distances from points of `from` to the chain `to`.
inline std::pair<double, double> distances(const meridian::Chain& from, const meridian::Chain& to) {
  double least = INFINITY, greatest = 0;
  for (const auto& s : from) {
    for (int k = 0; k <= 200; ++k) {
      const double distance = meridian::distance_to(to, s.at(s.length() * k / 200));
      least = std::min(least, distance);
      greatest = std::max(greatest, distance);
    }
  }
  return {least, greatest};
}

/// Every number in a text, as printed.
inline std::vector<double> numbers_in(const std::string& text) {
  std::vector<double> numbers;
  for (std::size_t i = 0; i < text.size();) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data() + i, text.data() + text.size(), value);
    const bool starts_word = i == 0 || text[i - 1] == ' ' || text[i - 1] == '"';
    if (error != std::errc() || !starts_word) {
      ++i;
      continue;
    }
    numbers.push_back(value);
    i = static_cast<std::size_t>(end - text.data());
  }
  return numbers;
}

}  // namespace crownwright::solid
