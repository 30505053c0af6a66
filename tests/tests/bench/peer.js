// The bench's peer: one thing appraised on every venue of a stall, written from the words of the sums and not from the app's code, with
// general decimals. Amounts go in and out in minor units. It knows what the stall of the bench needs: cartons, rigid things that need no
// padding, weights in ounces and pounds, sides in inches.
"use strict";
/* global Decimal */

Decimal.set({ precision: 40, rounding: Decimal.ROUND_HALF_UP });
const D = (number) => new Decimal(number);
const NOTHING = D(0);
/** To the minor unit, half away from zero. */
const rounded = (amount) => amount.toDecimalPlaces(0);
const share = (of, percent) => of.times(percent).div(100);
const limited = (amount, { least, most }) => {
  if (least !== undefined && amount.lt(least)) return D(least);
  return most !== undefined && amount.gt(most) ? D(most) : amount;
};
const sum = (amounts) => amounts.reduce((all, one) => all.plus(one), NOTHING);

// Measures: ounces, inches, cubic inches.
const weight = (text) => {
  const [number, unit] = text.split(" ");
  return D(number).times({ oz: 1, lb: 16 }[unit]);
};
const size = (text) => text.replace(" in", "").split(" x ").map(D).sort((a, b) => b.comparedTo(a));
const inches = (text) => D(text.split(" ")[0]);
const volume = ([a, b, c]) => a.times(b).times(c);

// Terms.

/** What one charge comes to before its limits; `before` are the charges ahead of it and what groups make of them. */
function exact(charge, { price, postIn }, before) {
  const bases = {
    price: () => price,
    price_and_post: () => price.plus(postIn),
    order_total: (tax) => price.plus(postIn).times(D(100).plus(tax)).div(100),
    charges: (places) => before(places),
  };
  const [name, more] = typeof charge.base === "string" ? [charge.base] : Object.entries(charge.base)[0];
  const base = bases[name](more);
  const [way, much] = Object.entries(charge.amount)[0];
  const step = ({ percent = 0, flat = 0 } = {}) => share(base, percent).plus(flat);
  const from = (row) => row.from ?? 0;
  switch (way) {
    case "percent": return share(base, much);
    case "flat": return D(much);
    // The whole amount at its bracket's rate and flat sum.
    case "brackets": return step(much.findLast((row) => base.gte(from(row))));
    // By the running sales, of which there are none yet.
    case "tiers": return step(much.steps.findLast((row) => from(row) <= 0));
    case "slices": return sum(much.map((row, at) => {
      if (base.lte(from(row))) return NOTHING;
      const end = Decimal.min(base, much[at + 1]?.from ?? base);
      return share(end.minus(from(row)), row.percent ?? 0).plus(row.flat ?? 0);
    }));
    default: throw new Error(`no way to charge is called ${way}`);
  }
}

/** The venue's cut of one sale. */
function cut({ charges, groups = [] }, sale) {
  const made = [];
  const holds = ({ when = {} }) => sale.price.gte(when.from ?? 0) && (when.below === undefined || sale.price.lt(when.below));
  // What a group's least or most makes of its charges: the difference.
  const difference = (group) => {
    const of = group.charges.map((place) => made[place - 1]).filter((one) => one);
    return of.length === 0 ? NOTHING : limited(sum(of), group).minus(sum(of));
  };
  const before = (places) => {
    const whole = groups.filter((group) => group.charges.every((place) => places.includes(place)));
    return sum([...places.map((place) => made[place - 1] ?? NOTHING), ...whole.map(difference)]);
  };
  for (const charge of charges) {
    made.push(holds(charge) ? limited(rounded(exact(charge, sale, before)), charge) : null);
  }
  return sum([...made.filter((one) => one), ...groups.map(difference)]);
}

// Postage.

/** What one service asks for a parcel, by zone or over the mix; null for what it refuses. */
function quote(card, service, parcel) {
  const at = (prices) => {
    const zones = prices.length;
    if (zones === 1 || card.mix === undefined) return prices[zones - 1] === null ? null : D(prices[zones - 1]);
    const likely = card.mix.map((part, zone) => [part, prices[zone]]).filter(([part]) => part > 0);
    if (likely.some(([, price]) => price === null)) return null;
    return rounded(sum(likely.map(([part, price]) => D(part).times(price))).div(10_000));
  };
  const flat = service.flat?.find(({ container }) => container === parcel.container);
  if (flat) return parcel.weight.gt(weight(flat.heaviest)) ? null : at(flat.prices);
  const [long, middle, short] = parcel.size;
  const sizes = {
    longest: long,
    length_and_girth: long.plus(middle.plus(short).times(2)),
    sum_of_sides: long.plus(middle).plus(short),
  };
  const over = (most, found) => most !== undefined && found.gt(most);
  for (const [name, found] of Object.entries(sizes)) if (over(service[name] && inches(service[name]), found)) return null;
  if (over(service.heaviest && weight(service.heaviest), parcel.weight)) return null;
  const up = (amount, step) => amount.div(step).ceil().times(step);
  let billed = service.round ? up(parcel.weight, weight(service.round.step)) : parcel.weight;
  const bulk = service.volumetric;
  if (bulk && volume(parcel.size).gt(inches(bulk.over))) {
    // So much volume counts as one of the step's unit.
    billed = Decimal.max(billed, up(volume(parcel.size).div(inches(bulk.per)).times(16), weight(bulk.step)));
  }
  const row = service.steps.find(([most]) => billed.lte(weight(most)));
  const price = row ? at(row[1]) : null;
  if (price === null) return null;
  const holds = { longest: (most) => long.gt(most), volume: (most) => volume(parcel.size).gt(most) };
  const extras = (service.surcharges ?? []).filter((extra) => {
    const [measure, most] = Object.entries(extra.over)[0];
    return holds[measure](inches(most));
  });
  return price.plus(sum(extras.map((extra) => extra.amount)));
}

/** The carton that is cheapest with its postage, of those that the thing goes into. */
function packed(stall, card, [heavy, large]) {
  let best = null;
  for (const container of stall.containers) {
    const [room, thing] = [size(container.inside), size(large)];
    if (thing.some((side, at) => side.gt(room[at]))) continue;
    const parcel = { weight: weight(heavy).plus(weight(container.tare)), size: room, container: container.name };
    const prices = card.services.map((service) => quote(card, service, parcel)).filter((price) => price !== null);
    if (prices.length === 0) continue;
    const postage = Decimal.min(...prices);
    const all = postage.plus(container.cost);
    if (best === null || all.lt(best.all)) best = { all, postage, packing: D(container.cost), weight: parcel.weight };
  }
  return best;
}

/** Postage in and out, by who pays for what. */
function posting(way, sent, price) {
  if (way === "handed_over") return [NOTHING, NOTHING];
  if (way === "buyer_at_cost") return [sent.postage, sent.postage];
  if (way === "seller_pays") return [NOTHING, sent.postage];
  const [name, more] = Object.entries(way)[0];
  if (name === "stated") return [D(more), sent.postage];
  if (name === "free_from") {
    const [postIn, out] = posting(more.below, sent, price);
    return [price.gte(more.sum) ? NOTHING : postIn, out];
  }
  const { price: { flat, bands }, paid_by: payer } = more;
  const label = D(flat ?? bands.find(([most]) => sent.weight.lte(weight(most)))[1]);
  const buyers = { buyer: label, seller: NOTHING }[payer] ?? rounded(share(label, payer.shared));
  return [buyers, label];
}

// The verdict.

/** The sums at one selling price. */
function sums(stall, venue, sent, price) {
  const [postIn, out] = posting(venue.arrangement, sent, price);
  const packing = venue.arrangement === "handed_over" ? NOTHING : sent.packing;
  const taken = cut(venue.schedule, { price, postIn });
  const { unsold, offers, returns } = stall.allowances;
  const aside = rounded(share(price, D(unsold).plus(offers).plus(returns)));
  const before = price.plus(postIn).minus(taken).minus(out).minus(packing).minus(aside);
  return { postIn, out, packing, cut: taken, aside, before };
}

/** One venue's figures, in minor units. */
function judged(stall, venue, sent, { ask, low, likely }) {
  const { rules } = stall;
  const here = sums(stall, venue, sent, D(likely));
  const cheap = sums(stall, venue, sent, D(low));
  const most = Decimal.min(
    here.before.minus(rules.least_keep),
    here.before.times(100).div(rules.least_multiple).floor(),
    cheap.before,
    here.before,
  );
  const ceiling = most.isNegative() ? null : most;
  const down = (amount, step) => amount.div(step).floor().times(step);
  let shown = null;
  if (ceiling !== null) {
    const stepped = down(ceiling, rules.cash_step);
    shown = stepped.isZero() || (stepped.lt(ask) && ceiling.gte(ask)) ? ceiling : stepped;
  }
  let verdict = "Leave";
  if (ceiling?.gte(ask)) verdict = "Buy";
  else if (ceiling?.gt(0) && ceiling.gte(share(D(ask), D(100).minus(rules.reach)))) verdict = "Haggle";
  let open = null;
  if (verdict !== "Leave") {
    const coin = Math.max(100, rules.cash_step);
    const nearest = (amount) => amount.div(coin).toDecimalPlaces(0).times(coin);
    // Two thirds of an amount never end in exactly half a coin by being cut short: forty digits are kept.
    const offer = Decimal.min(nearest(ceiling.div(2)), nearest(D(ask).times(2).div(3)), down(shown, coin));
    open = offer.gt(0) && offer.lt(ask) ? offer : null;
  }
  const all = {
    keep: here.before.minus(ask), low: cheap.before.minus(ask), ceiling, shown, open,
    cut: here.cut, aside: here.aside, packing: here.packing, in: here.postIn, out: here.out,
  };
  const whole = Object.entries(all).map(([name, amount]) => [name, amount === null ? null : amount.toNumber()]);
  return { name: venue.name, verdict, ...Object.fromEntries(whole) };
}

/** One thing on every venue, best first. What is typed: the kind, the ask, the low and the likely price. */
function appraise(stall, typed) {
  const sent = stall.cards.map((card) => packed(stall, card, stall.kinds[typed.kind]));
  const all = stall.venues.map((venue) => judged(stall, venue, sent[venue.card], typed));
  return all.sort((one, other) => other.keep - one.keep);
}

window.appraise = appraise;
