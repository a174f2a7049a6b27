// SPDX-License-Identifier: Apache-2.0
// The caster on our own tree of boxes. Rays go in packets of neighbours: a box or a triangle is fetched once and asked
// of all rays of the packet together. Rays of a packet that start at one place (as those of one lamp do) share the
// differences from it.
//
// A triangle is met by the signs of three edge products of the ray's way with the corners seen from its origin. The
// product of an edge is the same for both triangles at it but for its sign, and what rounding can do to it counts as
// inside, so no ray slips between neighbours, not even through a corner.
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "geometry/box_tree.hpp"
#include "geometry/lanes.hpp"
#include "geometry/ray_caster.hpp"

namespace duskwire::geometry {
namespace {

using lanes::Floats;
using lanes::Mask;

template <class Number>
using Triple = std::array<Number, 3>;

// A box is met a little early and left a little late, by more than the rounding of its three products.
constexpr float box_slack = 1 + 4e-7F;
// Steeper than this a way's reciprocal is not followed: its products stay finite within the bounds of sound_triangles.
constexpr float least_way = 1e-18F;

// What rounding can do to an edge product, as a share of the edge's length, the corners' distance and the way's length:
// about eight roundings of 2^-24 one upon another, twice. A triangle so seems wider by a millionth of its distance.
constexpr float edge_slack = 1e-6F;

// By how much of its size a bundle is taken for wider than it is.
constexpr float bundle_slack = 1e-5F;

DUSKWIRE_INLINE float reciprocal(float way) {
  return 1 / (std::abs(way) < least_way ? std::copysign(least_way, way) : way);
}

template <class A, class B>
DUSKWIRE_INLINE auto dot3(const Triple<A>& a, const Triple<B>& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

template <class A>
DUSKWIRE_INLINE Triple<A> cross3(const Triple<A>& a, const Triple<A>& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

template <class A>
DUSKWIRE_INLINE Triple<A> minus(const Triple<A>& a, const Triple<A>& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}

template <class A>
DUSKWIRE_INLINE Triple<A> plus(const Triple<A>& a, const Triple<A>& b) {
  return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}

template <class Place>
DUSKWIRE_INLINE Triple<Place> seen_from(const Triple<Place>& origin_m, const std::array<float, 3>& point_m) {
  return {point_m[0] - origin_m[0], point_m[1] - origin_m[1], point_m[2] - origin_m[2]};
}

DUSKWIRE_INLINE float least(float a, float b) { return a < b ? a : b; }
DUSKWIRE_INLINE float greatest(float a, float b) { return a > b ? a : b; }
DUSKWIRE_INLINE bool either(bool a, bool b) { return a || b; }
DUSKWIRE_INLINE Mask either(const Mask& a, const Mask& b) { return a | b; }
DUSKWIRE_INLINE float choose(bool which, float a, float b) { return which ? a : b; }
using lanes::choose;
using lanes::greatest;
using lanes::least;

// The length or a little more, without a root.
template <class A>
DUSKWIRE_INLINE A size1(const Triple<A>& a) {
  const auto size = [](const A& x) { return greatest(x, -x); };
  return size(a[0]) + size(a[1]) + size(a[2]);
}

// One ray (Way float) or a packet (Way Floats) from one place (Place float) or from several (Place Floats).
template <class Place, class Way>
struct Rays {
  Triple<Place> origin_m;
  Triple<Way> way;
  Triple<Way> inverse;
  Triple<int> turn;  // by axis: 1 where every way goes up it, -1 down, 0 where they differ
  Way slack;         // edge_slack times the way's length or a little more
  Way from;
  Way to;  // below `from` for a ray that needs no more asking
};

template <class Place, class Way>
DUSKWIRE_INLINE auto meets_box(const BoxNode& box, const Rays<Place, Way>& rays) {
  const Triple<Place> low = seen_from(rays.origin_m, box.low_m);
  const Triple<Place> high = seen_from(rays.origin_m, box.high_m);
  Way enter = rays.from;
  Way leave = rays.to;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const Way at_low = low[axis] * rays.inverse[axis];
    const Way at_high = high[axis] * rays.inverse[axis];
    if (rays.turn[axis] > 0) {
      enter = greatest(enter, at_low);
      leave = least(leave, at_high);
    } else if (rays.turn[axis] < 0) {
      enter = greatest(enter, at_high);
      leave = least(leave, at_low);
    } else {
      enter = greatest(enter, least(at_low, at_high));
      leave = least(leave, greatest(at_low, at_high));
    }
  }
  return enter <= box_slack * leave;
}

template <class Way>
struct Meeting {
  Way over;   // t = over / under
  Way under;  // positive, or 0 for a ray within the triangle's plane
};

// Both ends of t are checked by the caller: it may shrink `to` as it goes.
template <class Place, class Way>
DUSKWIRE_INLINE auto meets_triangle(const Corners& corners, const Rays<Place, Way>& rays, Meeting<Way>& meeting) {
  const Triple<Place> a = seen_from(rays.origin_m, corners.a_m);
  const Triple<Place> b = seen_from(rays.origin_m, corners.b_m);
  const Triple<Place> c = seen_from(rays.origin_m, corners.c_m);
  const Triple<Place> ab = minus(b, a);
  const Triple<Place> bc = minus(c, b);
  const Triple<Place> ca = minus(a, c);
  // (p - q) x (p + q) is twice p x q, and rounds far less for small triangles far away.
  const Way u = dot3(cross3(bc, plus(b, c)), rays.way);
  const Way v = dot3(cross3(ca, plus(c, a)), rays.way);
  const Way w = dot3(cross3(ab, plus(a, b)), rays.way);
  const Triple<Place> normal = cross3(ca, ab);
  const Way under = dot3(normal, rays.way);
  const Way over = Way{} + dot3(normal, a);
  const auto behind = under < Way{};
  meeting.over = choose(behind, -over, over);
  meeting.under = choose(behind, -under, under);
  const Place reach = size1(a) + corners.side_m;
  const Way slack = corners.side_m * reach * rays.slack;
  return either(-slack <= least(u, least(v, w)), greatest(u, greatest(v, w)) <= slack);
}

class OwnRayCaster final : public RayCaster {
 public:
  explicit OwnRayCaster(BoxTree tree) : tree_(std::move(tree)) {}

  [[nodiscard]] bool surely_free(const Bundle& bundle) const override;

  void occluded(std::span<const Ray> rays, std::span<std::uint8_t> blocked) const override {
    std::uint32_t last_met = 0;
    for (std::size_t i = 0; i < rays.size(); i += lanes::count) {
      const std::size_t size = std::min<std::size_t>(lanes::count, rays.size() - i);
      ask_packet(rays.subspan(i, size), blocked.data() + i, last_met);
    }
  }

  [[nodiscard]] std::optional<RayHit> nearest(const Ray& ray) const override;

 private:
  void ask_packet(std::span<const Ray> rays, std::uint8_t* blocked, std::uint32_t& last_met) const;
  template <class Place>
  void ask(Rays<Place, Floats>& rays, Mask& met, std::uint32_t& last_met) const;

  BoxTree tree_;
};

// A bundle as boxes and triangles are asked of it: a ball a little larger than the one given, by more than what
// rounding and the slack of edges can do to a ray.
class Shaft {
 public:
  explicit Shaft(const Bundle& bundle)
      : origin_m_(bundle.origin_m), normal_(bundle.normal), behind_m_(bundle.behind_m) {
    for (std::size_t axis = 0; axis < 3; ++axis) to_middle_m_[axis] = bundle.middle_m[axis] - origin_m_[axis];
    const float distance_m = std::sqrt(dot3(to_middle_m_, to_middle_m_));
    float size_m = 0;
    for (const float x : origin_m_) size_m += std::abs(x);
    radius_m_ = bundle.radius_m + bundle_slack * (distance_m + bundle.radius_m + size_m);
    has_plane_ = dot3(normal_, normal_) > 0;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      low_m_[axis] = std::min(origin_m_[axis], bundle.middle_m[axis] - radius_m_) - bundle_slack * size_m;
      high_m_[axis] = std::max(origin_m_[axis], bundle.middle_m[axis] + radius_m_) + bundle_slack * size_m;
    }
  }

  [[nodiscard]] bool misses(const BoxNode& box) const {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      if (box.high_m[axis] < low_m_[axis] || box.low_m[axis] > high_m_[axis]) return true;
    }
    if (!has_plane_) return false;
    float highest_m = 0;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      highest_m += normal_[axis] * (normal_[axis] > 0 ? box.high_m[axis] : box.low_m[axis]);
    }
    return highest_m <= behind_m_;
  }

  // Planes tell: that of the triangle, and those through the origin and each of its edges.
  [[nodiscard]] bool misses(const Corners& corners) const {
    if (has_plane_ && dot3(normal_, corners.a_m) <= behind_m_ && dot3(normal_, corners.b_m) <= behind_m_ &&
        dot3(normal_, corners.c_m) <= behind_m_) {
      return true;
    }
    const Triple<float> a = seen_from(origin_m_, corners.a_m);
    const Triple<float> b = seen_from(origin_m_, corners.b_m);
    const Triple<float> c = seen_from(origin_m_, corners.c_m);
    const Triple<float> normal = cross3(minus(b, a), minus(c, a));
    const float length = std::sqrt(dot3(normal, normal));
    const float origin_at = -dot3(normal, a);  // of the plane, times `length`
    const float ball_at = origin_at + dot3(normal, to_middle_m_);
    const float margin = radius_m_ * length;
    const float near = bundle_slack * length * (size1(a) + corners.side_m);
    if (origin_at > near && ball_at > margin + near) return true;
    if (origin_at < -near && ball_at < -margin - near) return true;
    // Towards which side of an edge's plane the triangle lies changes with the side that the origin is on.
    const float turn = origin_at > 0 ? -1.0F : 1.0F;
    return is_beyond(a, b, turn) || is_beyond(b, c, turn) || is_beyond(c, a, turn);
  }

 private:
  // The ball lies wholly on the outer side of the plane through the origin and both corners.
  [[nodiscard]] bool is_beyond(const Triple<float>& p, const Triple<float>& q, float turn) const {
    const Triple<float> normal = cross3(minus(q, p), plus(p, q));  // twice p x q, with less rounding
    return turn * dot3(normal, to_middle_m_) > radius_m_ * std::sqrt(dot3(normal, normal));
  }

  Triple<float> origin_m_;
  Triple<float> to_middle_m_{};
  Triple<float> low_m_{};
  Triple<float> high_m_{};
  Triple<float> normal_;
  float behind_m_;
  float radius_m_ = 0;
  bool has_plane_ = false;
};

bool finite(const Ray& ray) {
  float sum = ray.from * 0 + ray.to * 0;
  for (std::size_t axis = 0; axis < 3; ++axis) sum += ray.origin_m[axis] * 0 + ray.way[axis] * 0;
  return sum == 0;
}

// What fills the lanes without a ray of their own: a like one that meets nothing.
Ray not_asked(const Ray& like) {
  const Ray ray = finite(like) ? like : Ray{{0, 0, 0}, {1, 1, 1}, 0, 0};
  return {ray.origin_m, ray.way, 0, -1};
}

int turn_of(const std::array<float, lanes::count>& inverse) {
  const auto up = std::count_if(inverse.begin(), inverse.end(), [](float x) { return x > 0; });
  return up == lanes::count ? 1 : up == 0 ? -1 : 0;
}

float edge_slack_of(const Ray& ray) {
  return edge_slack * (std::abs(ray.way[0]) + std::abs(ray.way[1]) + std::abs(ray.way[2]));
}

bool from_one_place(std::span<const Ray> rays) {
  return std::all_of(rays.begin(), rays.end(), [&](const Ray& ray) { return ray.origin_m == rays[0].origin_m; });
}

// One triangle asked of all rays of a packet: those that it stops need no more asking.
template <class Place>
DUSKWIRE_INLINE bool stop_at(const Corners& corners, Rays<Place, Floats>& rays, Mask& met) {
  Meeting<Floats> meeting;
  const Mask inside = meets_triangle(corners, rays, meeting);
  const Mask stopped = inside & (rays.from * meeting.under < meeting.over) & (meeting.over < rays.to * meeting.under);
  if (!lanes::any(stopped)) return false;
  met = met | stopped;
  rays.to = choose(stopped, lanes::all(-1), rays.to);
  return true;
}

template <class Place>
void OwnRayCaster::ask(Rays<Place, Floats>& rays, Mask& met, std::uint32_t& last_met) const {
  if (stop_at(tree_.triangles[last_met], rays, met) && !lanes::any(rays.from < rays.to)) return;
  std::array<std::uint32_t, BoxTree::deepest + 1> open;  // NOLINT: filled as it grows
  std::size_t opened = 0;
  open[opened++] = 0;
  while (opened > 0) {
    const BoxNode& node = tree_.nodes[open[--opened]];
    if (!lanes::any(meets_box(node, rays))) continue;
    if (node.count == 0) {
      open[opened++] = node.first + 1;
      open[opened++] = node.first;
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      if (!stop_at(tree_.triangles[i], rays, met)) continue;
      last_met = i;
      if (!lanes::any(rays.from < rays.to)) return;
    }
  }
}

bool OwnRayCaster::surely_free(const Bundle& bundle) const {
  if (tree_.nodes.empty()) return true;
  const Shaft shaft(bundle);
  std::array<std::uint32_t, BoxTree::deepest + 1> open;  // NOLINT: filled as it grows
  std::size_t opened = 0;
  open[opened++] = 0;
  while (opened > 0) {
    const BoxNode& node = tree_.nodes[open[--opened]];
    if (shaft.misses(node)) continue;
    if (node.count == 0) {
      open[opened++] = node.first + 1;
      open[opened++] = node.first;
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      if (!shaft.misses(tree_.triangles[i])) return false;
    }
  }
  return true;
}

void OwnRayCaster::ask_packet(std::span<const Ray> rays, std::uint8_t* blocked, std::uint32_t& last_met) const {
  std::fill_n(blocked, rays.size(), std::uint8_t{0});
  if (tree_.nodes.empty()) return;
  using Numbers = std::array<float, lanes::count>;
  Triple<Numbers> origin_m;
  Triple<Numbers> way;
  Triple<Numbers> inverse;
  Numbers slack;
  Numbers from;
  Numbers to;
  const Ray filling = not_asked(rays[0]);
  for (std::size_t i = 0; i < lanes::count; ++i) {
    const bool asked = i < rays.size() && finite(rays[i]);
    const Ray& ray = asked ? rays[i] : filling;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      origin_m[axis][i] = ray.origin_m[axis];
      way[axis][i] = ray.way[axis];
      inverse[axis][i] = reciprocal(ray.way[axis]);
    }
    slack[i] = edge_slack_of(ray);
    from[i] = ray.from;
    to[i] = ray.to;
  }
  const auto loaded = [](const Triple<Numbers>& numbers) {
    return Triple<Floats>{lanes::load(numbers[0]), lanes::load(numbers[1]), lanes::load(numbers[2])};
  };
  const Triple<int> turn{turn_of(inverse[0]), turn_of(inverse[1]), turn_of(inverse[2])};
  Mask met{};
  if (from_one_place(rays) && finite(rays[0])) {
    Rays<float, Floats> packet{rays[0].origin_m,   loaded(way),       loaded(inverse), turn,
                               lanes::load(slack), lanes::load(from), lanes::load(to)};
    ask(packet, met, last_met);
  } else {
    Rays<Floats, Floats> packet{loaded(origin_m),   loaded(way),       loaded(inverse), turn,
                                lanes::load(slack), lanes::load(from), lanes::load(to)};
    ask(packet, met, last_met);
  }
  const auto met_lanes = lanes::store(met);
  for (std::size_t i = 0; i < rays.size(); ++i) blocked[i] = met_lanes[i] != 0 ? 1 : 0;
}

std::optional<RayHit> OwnRayCaster::nearest(const Ray& ray) const {
  if (tree_.nodes.empty() || !finite(ray)) return std::nullopt;
  Rays<float, float> one{ray.origin_m, ray.way, {}, {}, edge_slack_of(ray), ray.from, ray.to};
  for (std::size_t axis = 0; axis < 3; ++axis) one.inverse[axis] = reciprocal(ray.way[axis]);
  std::optional<RayHit> hit;
  std::array<std::uint32_t, BoxTree::deepest + 1> open;  // NOLINT: filled as it grows
  std::size_t opened = 0;
  open[opened++] = 0;
  while (opened > 0) {
    const BoxNode& node = tree_.nodes[open[--opened]];
    if (!meets_box(node, one)) continue;
    if (node.count == 0) {
      open[opened++] = node.first + 1;
      open[opened++] = node.first;
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      Meeting<float> meeting;
      if (!meets_triangle(tree_.triangles[i], one, meeting) || !(meeting.under > 0)) continue;
      const float t = meeting.over / meeting.under;
      if (!(t > one.from && t < one.to)) continue;
      one.to = t;
      hit = RayHit{tree_.triangles[i].triangle, t};
    }
  }
  return hit;
}

}  // namespace

std::unique_ptr<RayCaster> own_ray_caster(const TriangleMesh& mesh) {
  return std::make_unique<OwnRayCaster>(build_box_tree(sound_triangles(mesh)));
}

#ifndef DUSKWIRE_EMBREE
std::unique_ptr<RayCaster> quickest_ray_caster(const TriangleMesh& mesh) { return own_ray_caster(mesh); }
#endif

}  // namespace duskwire::geometry
