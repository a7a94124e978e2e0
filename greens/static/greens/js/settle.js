// What a set says while it grows: mean, spread, interval, and how many more readings settle it.
// The figures of the trade come with the form; tests hold these sums to those of the site.

const HAIR = 1e-9;

export function mean(values) {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}

// Spread of a sample; 0 for a single value.
export function spread(values) {
  const centre = mean(values);
  const squares = values.reduce((sum, one) => sum + (one - centre) ** 2, 0);
  return values.length > 1 ? Math.sqrt(squares / (values.length - 1)) : 0;
}

// Student t for so many readings: as it stands in the table, else on the line in 1/(n - 1) between neighbours.
export function quantile({ t, z }, count) {
  const after = t.findIndex(([readings]) => readings >= count);
  const [high, atHigh] = after < 0 ? [Infinity, z] : t[after];
  if (high === count) return atHigh;
  const [low, atLow] = after < 0 ? t[t.length - 1] : t[after - 1];
  const [left, right, here] = [low, high, count].map((n) => 1 / (n - 1));
  return atHigh + ((atLow - atHigh) * (here - right)) / (left - right);
}

export function meanInterval(centre, sd, count, table) {
  const half = (quantile(table, count) * sd) / Math.sqrt(count);
  return [centre - half, centre + half];
}

// Wilson score interval of a share, as parts of 1.
export function shareInterval(hits, count, z) {
  const share = hits / count;
  const centre = share + z ** 2 / (2 * count);
  const half = z * Math.sqrt((share * (1 - share)) / count + z ** 2 / (4 * count ** 2));
  const [lower, upper] = [-half, half].map((side) => (centre + side) / (1 + z ** 2 / count));
  return [hits ? Math.max(0, lower) : 0, hits < count ? Math.min(1, upper) : 1];
}

// How many more readings bring the mean within the half-width, if they spread alike.
export function moreForMean(values, half, table) {
  const sd = spread(values);
  let needed = Math.max(2, Math.ceil(((table.z * sd) / half) ** 2 - HAIR));
  while ((quantile(table, needed) * sd) / Math.sqrt(needed) > half * (1 + HAIR)) needed += 1;
  return Math.max(0, needed - values.length);
}

// Hits and points of answers and frames.
export function counts(values) {
  const pairs = values.map((one) => (typeof one === "object" ? [one.hits, one.points] : [Number(one), 1]));
  return pairs.reduce(([hits, points], [hit, of]) => [hits + hit, points + of], [0, 0]);
}

// State, tally in words and how many more, by one rule; ``tables`` are the quantiles by confidence.
export function judge(rule, values, tables) {
  return JUDGES[rule.rule](rule, values, tables);
}

const MET = "met", NOT_MET = "not met", NOT_KNOWN = "not known";
// "3 of 4 so far"; of an empty set that nothing is taken yet.
const soFar = (values, told) => (values.length ? `${told} so far` : "none taken yet");
const short = (rule, values) => Math.max(0, rule.of - values.length);

function byCount(rule, values) {
  const passed = values.filter((one) => (rule.at_least === null ? one : one >= rule.at_least)).length;
  const taken = Math.max(values.length, rule.of);
  const needed = Math.ceil((rule.wanted * taken) / rule.of - HAIR);
  const said = `${soFar(values, `${passed} of ${values.length}`)}; ${needed} of ${taken} wanted`;
  if (passed >= needed) return { state: MET, said, more: 0 };
  if (passed + short(rule, values) < needed) return { state: NOT_MET, said, more: 0 };
  return { state: NOT_KNOWN, said, more: short(rule, values) };
}

function byLargest(rule, values) {
  const over = values.filter((one) => one > rule.limit).length;
  const told = `${over || "none"} of ${values.length} over the limit`;
  const said = `${soFar(values, told)}; none in ${rule.of} wanted`;
  if (over) return { state: NOT_MET, said, more: 0 };
  const more = short(rule, values);
  return { state: more ? NOT_KNOWN : MET, said, more };
}

function byAnswers(rule, values) {
  const wrong = values.filter((one) => one !== rule.wanted).length;
  const told = `${values.length - wrong} of ${values.length}`;
  const said = `${soFar(values, told)}; ${rule.of} of ${rule.of} wanted`;
  if (wrong) return { state: NOT_MET, said, more: 0 };
  const more = short(rule, values);
  return { state: more ? NOT_KNOWN : MET, said, more };
}

function byRange(rule, values, tables) {
  const said = `${soFar(values, values.length)}; ${rule.of} wanted`;
  if (values.length < rule.of) return { state: NOT_KNOWN, said, more: short(rule, values) };
  const table = tables[rule.confidence];
  const centre = mean(values);
  const limits = [rule.low, rule.high].filter((one) => one !== null);
  const [lower, upper] =
    values.length < 3 ? [centre, centre] : meanInterval(centre, spread(values), values.length, table);
  if (limits.some((one) => lower < one && one < upper)) {
    const gap = Math.min(...limits.map((one) => Math.abs(centre - one)));
    return { state: NOT_KNOWN, said, more: gap ? Math.max(1, moreForMean(values, gap, table)) : null };
  }
  const inside = (rule.low === null || centre >= rule.low) && (rule.high === null || centre <= rule.high);
  return { state: inside ? MET : NOT_MET, said, more: 0 };
}

// Points still to be read until the lower bound reaches the share wanted; null when none would do.
function morePoints(hits, points, { lower, z }) {
  const [share, least] = [hits / points, lower / 100];
  if (share <= least) return null;
  return Math.ceil((z ** 2 * least * (1 - least)) / (share - least) ** 2 - HAIR) - points;
}

function byBound(rule, values) {
  const [hits, points] = counts(values);
  const said = `${soFar(values, values.length)}; ${rule.of} wanted`;
  if (!points) return { state: NOT_KNOWN, said, more: rule.of };
  const full = Math.max(points, rule.of * rule.points);
  const needed = Math.ceil(Number(((rule.share * full) / 100).toFixed(9)));
  if (hits + full - points < needed) return { state: NOT_MET, said, more: 0 };
  const left = rule.of * rule.points - points;
  const lower = 100 * shareInterval(hits, points, rule.z)[0];
  if (left <= 0 && lower >= rule.lower) return { state: MET, said, more: 0 };
  const more = left > 0 ? left : morePoints(hits, points, rule) || rule.points;
  return { state: NOT_KNOWN, said, more: Math.ceil(more / rule.points) };
}

function byShowing(rule, values) {
  const more = short(rule, values);
  return { state: more ? NOT_KNOWN : MET, said: `${soFar(values, values.length)}; ${rule.of} wanted`, more };
}

const JUDGES = {
  count: byCount, largest: byLargest, every: byAnswers, range: byRange, bound: byBound, shown: byShowing,
};
