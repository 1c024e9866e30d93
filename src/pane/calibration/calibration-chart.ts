import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from "lit";
import { fixed } from "../parts/number-text.js";

export interface Axis {
  readonly of: string;
  readonly decimals: number;
  readonly unit: string;
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** Pairs, the line that was found, and how far each pair is from it. */
export interface ChartData {
  readonly x: Axis;
  readonly y: Axis;
  readonly points: readonly (Place & { readonly fitted: number })[];
  readonly line: readonly Place[];
}

const WIDTH = 320;
const HEIGHT = 190;
const LEFT = 58;
const RIGHT = 306;
const TOP = 26;
const BOTTOM = 148;
const MARK = 4.5;

/** Room around the values, so that no point lies on the frame; a single value gets some of its own. */
function domain(values: readonly number[], least: number): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = Math.max((high - low) * 0.12, (least - (high - low)) / 2);
  return [low - room, high + room];
}

const scaled =
  ([low, high]: readonly [number, number], from: number, to: number) =>
  (value: number): number =>
    Math.round((from + ((value - low) / (high - low)) * (to - from)) * 100) / 100;

const axisTitle = ({ of, unit }: Axis): string => (unit === "" ? of : `${of}, ${unit}`);

/** The outermost values, or one where they are written alike. */
function ticks(values: readonly number[], { decimals }: Axis): number[] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return fixed(low, decimals) === fixed(high, decimals) ? [low] : [low, high];
}

/** What the picture shows, for those who cannot see it; the numbers are in the table beside it. */
function description(
  { x, y, points }: ChartData,
  out: ReadonlySet<number>,
  numbers: readonly number[],
): string {
  const left = points.map((point) => Math.abs(point.y - point.fitted));
  const most = left.indexOf(Math.max(...left));
  const far = `Farthest from the line is pair ${numbers[most] ?? ""}, by ${fixed(left[most] ?? 0, y.decimals)}.`;
  const odd =
    out.size === 0
      ? ""
      : ` ${out.size === 1 ? "Pair" : "Pairs"} ${[...out].map((i) => numbers[i]).join(", ")} ${out.size === 1 ? "stands" : "stand"} out.`;
  return `${axisTitle(y)}, over ${axisTitle(x)}: ${points.length === 1 ? "1 pair" : `${points.length} pairs`} and the line that was found. ${far}${odd}`;
}

/** A cross for what stands out, a ring for the rest: no colour is needed to tell them apart. */
function mark(x: number, y: number, standsOut: boolean): SVGTemplateResult {
  if (!standsOut) return svg`<circle class="chart-point" cx=${x} cy=${y} r=${MARK}></circle>`;
  const path = `M${x - MARK} ${y - MARK}L${x + MARK} ${y + MARK}M${x - MARK} ${y + MARK}L${x + MARK} ${y - MARK}`;
  return svg`<path class="chart-out" d=${path}></path>`;
}

/**
 * A picture of a calibration.
 *
 * @param out places of the pairs that stand out
 * @param numbers of the pairs, as the screen shows them
 */
export function calibrationChart(
  data: ChartData,
  out: ReadonlySet<number>,
  numbers: readonly number[],
): TemplateResult {
  const { x, y, points, line } = data;
  const xs = domain(
    points.map((point) => point.x),
    10 ** -x.decimals * 4,
  );
  const ys = domain(
    [...points.flatMap((point) => [point.y, point.fitted]), ...line.map((place) => place.y)],
    10 ** -y.decimals * 10,
  );
  const [left, up] = [scaled(xs, LEFT, RIGHT), scaled(ys, BOTTOM, TOP)];
  const path = line.map((place, i) => `${i === 0 ? "M" : "L"}${left(place.x)} ${up(place.y)}`).join("");
  return html`<svg
    class="chart"
    role="img"
    viewBox="0 0 ${WIDTH} ${HEIGHT}"
    aria-labelledby="chart-title"
    aria-describedby="chart-desc"
  >
    <title id="chart-title">Pairs and calibration</title>
    <desc id="chart-desc">${description(data, out, numbers)}</desc>
    <path class="chart-frame" d="M${LEFT} ${TOP - 8}V${BOTTOM}H${RIGHT + 8}"></path>
    <text x="2" y="12">${axisTitle(y)}</text>
    <text x=${RIGHT + 8} y=${HEIGHT - 8} text-anchor="end">${axisTitle(x)}</text>
    ${ticks(
      points.map((point) => point.x),
      x,
    ).map(
      (value) =>
        svg`<text x=${left(value)} y=${BOTTOM + 16} text-anchor="middle">${fixed(value, x.decimals)}</text>
          <path class="chart-frame" d="M${left(value)} ${BOTTOM}v4"></path>`,
    )}
    ${ticks(
      points.flatMap((point) => [point.y, point.fitted]),
      y,
    ).map(
      (value) =>
        svg`<text x=${LEFT - 6} y=${up(value) + 4} text-anchor="end">${fixed(value, y.decimals)}</text>
          <path class="chart-frame" d="M${LEFT} ${up(value)}h-4"></path>`,
    )}
    ${points.map((point) => svg`<path class="chart-left" d="M${left(point.x)} ${up(point.y)}V${up(point.fitted)}"></path>`)}
    ${path === "" ? nothing : svg`<path class="chart-line" d=${path}></path>`}
    ${points.map(
      (point, i) =>
        svg`${mark(left(point.x), up(point.y), out.has(i))}
          <text x=${left(point.x) + 7} y=${up(point.y) - 5}>${numbers[i]}</text>`,
    )}
  </svg>`;
}
