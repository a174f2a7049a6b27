// SPDX-License-Identifier: Apache-2.0
// Lists that the page writes by itself, with or without a server: price, materials and cuts as tables, and the job.
import type { Materials } from '../engine/answers';
import type { Price } from '../engine/price';
import { csvText } from '../units/csv';
import { amountText } from '../units/money';
import { groupedLines, lineGroupTitles } from '../panes/price-words';

export function priceCsv(price: Price): string {
  const money = (minor: number): number => Number(amountText(minor, price.currency));
  const rows = groupedLines(price).flatMap(({ group, lines }) =>
    lines.map((line) => [lineGroupTitles[group], line.text, Number(line.quantity.toFixed(3)), line.unit, money(line.unit_price_minor), money(line.price_minor), line.reason]),
  );
  return csvText([['group', 'text', 'quantity', 'unit', `unit price ${price.currency}`, `price ${price.currency}`, 'reason'], ...rows, ['', 'Total, an estimate', '', '', '', money(price.total_minor), '']]);
}

export function materialsCsv(list: Materials): string {
  const money = (minor: number): number => Number(amountText(minor, list.currency));
  const rows = list.lines.map((line) => [line.category, line.item, line.title, line.quantity, line.unit, money(line.unit_price_minor), money(line.price_minor), line.note]);
  return csvText([['category', 'item', 'title', 'quantity', 'unit', `unit cost ${list.currency}`, `cost ${list.currency}`, 'note'], ...rows]);
}

export function cutsCsv({ cuts }: Materials): string {
  const rows = cuts.map((cut) => [cut.tag, cut.from_name || cut.from, cut.to_name || cut.to, cut.item, cut.route_m, cut.slack_from_m, cut.slack_to_m, cut.cut_m, cut.reel]);
  return csvText([['tag', 'from', 'to', 'cable', 'route_m', 'slack_from_m', 'slack_to_m', 'cut_m', 'reel'], ...rows]);
}
