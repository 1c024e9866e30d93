import { html, nothing, svg, type TemplateResult } from "lit";
import {
  crossesPath,
  linePath,
  ringsPath,
  linearScale,
  extent,
  padded,
  type Point,
} from "../parts/chart-geometry.js";
import { tickBefore, tickBelow } from "../parts/chart-ticks.js";
import { fixed } from "../parts/number-text.js";

export interface Axis {
  readonly of: string;
  readonly decimals: number;
  readonly unit: string;
}

/** The pairs, the fitted line, and the residual of each pair. */
export interface ChartData {
  readonly x: Axis;
  readonly y: Axis;
  readonly points: readonly (Point & { readonly fitted: number })[];
  readonly line: readonly Point[];
}

const WIDTH = 320;
const HEIGHT = 190;
const LEFT = 58;
const RIGHT = 306;
const TOP = 26;
const BOTTOM = 148;
const MARK = 4.5;
const ROOM = 0.12;

const axisTitle = ({ of, unit }: Axis): string => (unit === "" ? of : `${of}, ${unit}`);

/** Minimum and maximum, or a single value if both are written alike. */
function ticks(values: readonly number[], { decimals }: Axis): number[] {
  const [low, high] = extent(values);
  return fixed(low, decimals) === fixed(high, decimals) ? [low] : [low, high];
}

/** Text alternative of the chart; its numbers are in the table beside it. */
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

/**
 * Chart of a calibration.
 *
 * @param out indices of the outliers
 * @param numbers of the pairs, as shown on the screen
 */
export function calibrationChart(
  data: ChartData,
  out: ReadonlySet<number>,
  numbers: readonly number[],
): TemplateResult {
  const { x, y, points, line } = data;
  const xs = padded(extent(points.map((point) => point.x)), ROOM, 10 ** -x.decimals * 4);
  const all = [...points.flatMap((point) => [point.y, point.fitted]), ...line.map((place) => place.y)];
  const ys = padded(extent(all), ROOM, 10 ** -y.decimals * 10);
  const [left, up] = [linearScale(xs, LEFT, RIGHT), linearScale(ys, BOTTOM, TOP)];
  const drawn = (place: Point): Point => ({ x: left(place.x), y: up(place.y) });
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
    ).map((value) => tickBelow(left(value), BOTTOM, fixed(value, x.decimals)))}
    ${ticks(
      points.flatMap((point) => [point.y, point.fitted]),
      y,
    ).map((value) => tickBefore(LEFT, up(value), fixed(value, y.decimals)))}
    ${points.map((point) => svg`<path class="chart-left" d="M${left(point.x)} ${up(point.y)}V${up(point.fitted)}"></path>`)}
    ${line.length === 0 ? nothing : svg`<path class="chart-line" d=${linePath(line.map(drawn))}></path>`}
    ${points.map((point, i) => {
      const place = drawn(point);
      return svg`${
        out.has(i)
          ? svg`<path class="chart-out" d=${crossesPath([place], MARK)}></path>`
          : svg`<path class="chart-point" d=${ringsPath([place], MARK)}></path>`
      }<text x=${place.x + 7} y=${place.y - 5}>${numbers[i]}</text>`;
    })}
  </svg>`;
}
