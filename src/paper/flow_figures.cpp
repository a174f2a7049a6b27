// SPDX-License-Identifier: Apache-2.0
// Pictures and drawings with their captions, lines to sign and to write on.
#include <cairo.h>

#include <algorithm>
#include <cmath>

#include "paper/flow.hpp"
#include "paper/pen.hpp"
#include "paper/picture_ink.hpp"

namespace duskwire::paper {
namespace {

std::shared_ptr<const Words> caption_words(Flow& flow, const std::string& caption, double width_mm) {
  TextLook look;
  look.size_pt = 8;
  look.colour = grey(0.25);
  return flow.set(caption, look, width_mm);
}

void put_caption(Flow& flow, const std::shared_ptr<const Words>& caption) {
  if (!caption) return;
  flow.advance(1);
  flow.open("P");
  flow.words(caption, flow.left_mm(), flow.at_mm(), 0, caption->line_count());
  flow.close("P");
  flow.advance(caption->height_mm());
}

}  // namespace

void put_picture(Flow& flow, const Picture& picture) {
  if (!picture.picture || picture.picture->width_px == 0 || picture.picture->height_px == 0) return;
  const double ratio = static_cast<double>(picture.picture->height_px) / picture.picture->width_px;
  const auto caption = picture.caption.empty() ? nullptr : caption_words(flow, picture.caption, flow.width_mm());
  const double caption_mm = caption ? caption->height_mm() + 1 : 0;
  double width_mm = flow.width_mm();
  double height_mm = width_mm * ratio;
  const double most_mm = std::min(picture.max_height_mm, flow.full_mm() - caption_mm);
  if (height_mm > most_mm) {
    width_mm *= most_mm / height_mm;
    height_mm = most_mm;
  }
  flow.gap(2);
  flow.need(height_mm + caption_mm);
  const Box box{flow.left_mm(), flow.at_mm(), width_mm, height_mm};
  flow.open("Figure");
  flow.out().alternatives.push_back(picture.alternative);
  flow.draw(box, Ink::picture, picture_ink(*picture.picture, box));
  flow.close("Figure");
  flow.advance(height_mm);
  put_caption(flow, caption);
}

void put_drawing(Flow& flow, const Drawing& drawing) {
  const auto caption = drawing.caption.empty() ? nullptr : caption_words(flow, drawing.caption, flow.width_mm());
  const double caption_mm = caption ? caption->height_mm() + 1 : 0;
  flow.gap(2);
  flow.need(drawing.height_mm + caption_mm);
  const Box box{flow.left_mm(), flow.at_mm(), drawing.width_mm, drawing.height_mm};
  flow.open("Figure");
  flow.out().alternatives.push_back(drawing.alternative);
  flow.draw(box, Ink::picture, [how = drawing.draw, box](_cairo* surface) {
    Pen pen(surface, box.x_mm, box.y_mm);
    how(pen);
  });
  flow.close("Figure");
  flow.advance(drawing.height_mm);
  put_caption(flow, caption);
}

void put_signatures(Flow& flow, const Signatures& signatures) {
  if (signatures.captions.empty()) return;
  constexpr double to_write_mm = 14;
  constexpr double gap_mm = 8;
  const auto count = static_cast<double>(signatures.captions.size());
  const double width_mm = (flow.width_mm() - gap_mm * (count - 1)) / count;
  TextLook look;
  look.size_pt = 8;
  std::vector<std::shared_ptr<const Words>> captions;
  double height_mm = 0;
  for (const std::string& text : signatures.captions) {
    captions.push_back(flow.set(text, look, width_mm));
    height_mm = std::max(height_mm, captions.back()->height_mm());
  }
  flow.need(to_write_mm + height_mm + 1);
  double x_mm = flow.left_mm();
  const double y_mm = flow.at_mm() + to_write_mm;
  for (const auto& caption : captions) {
    flow.draw({x_mm, y_mm, width_mm, 0}, Ink::line, [=](_cairo* pen) {
      Pen(pen).line({x_mm, y_mm}, {x_mm + width_mm, y_mm}, {Width::w035});
    });
    flow.open("P");
    flow.words(caption, x_mm, y_mm + 0.8, 0, caption->line_count());
    flow.close("P");
    x_mm += width_mm + gap_mm;
  }
  flow.advance(to_write_mm + height_mm + 1);
}

void put_writing_lines(Flow& flow, const WritingLines& lines) {
  constexpr double pitch_mm = 8;
  for (int i = 0; i < lines.count; ++i) {
    flow.need(pitch_mm);
    flow.advance(pitch_mm);
    const double left_mm = flow.left_mm();
    const double right_mm = left_mm + flow.width_mm();
    const double y_mm = flow.at_mm();
    flow.draw({left_mm, y_mm, flow.width_mm(), 0}, Ink::line, [=](_cairo* pen) {
      Pen(pen).line({left_mm, y_mm}, {right_mm, y_mm}, {Width::w018, Dash::solid, grey(0.4)});
    });
  }
}

}  // namespace duskwire::paper
