import { html, nothing, svg, type TemplateResult } from "lit";
import type { Course, CoursePoint } from "../../functions/fermentation-course.js";
import {
  crossesPath,
  linePath,
  ringsPath,
  roundTicks,
  linearScale,
  extent,
  padded,
  type Point,
  type Extent,
} from "../parts/chart-geometry.js";
import { tickBefore, tickBelow } from "../parts/chart-ticks.js";
import { quantity } from "./quantity.js";
import { shownTick, shownTime, timeTicks } from "./shown-time.js";

/** Temperatures for the readings of a log, in the order of the cells; undefined if none was logged. */
export type Temperatures = readonly (number | undefined)[];

const WIDTH = 320;
const HEIGHT = 240;
const LEFT = 50;
const TOP = 18;
const BOTTOM = HEIGHT - 24;
/** Above this many readings the markers are smaller. */
const MANY = 150;

/** A fermentation as a chart, with a table of its stages below. */
export function fermentationChart(course: Course, temperatures: Temperatures | undefined): TemplateResult {
  const { stages, ahead, readings } = course;
  const aside = readings.filter(({ setAside }) => setAside !== undefined).length;
  return html`${readings.length === 0 ? nothing : picture(course, temperatures)}
    <p class="hint key">
      ○ logged${aside > 0 ? ", × set aside" : ""}, solid line:
      smooth${
        ahead.length > 0 ? ", dashed: forecast" : ""
      }${temperatures ? ", dotted: temperature" : ""}${stages.length > 0 ? ", numbers: stages" : ""}
    </p>
    ${
      stages.length === 0
        ? nothing
        : html`<table class="stages" aria-label="Stages">
            <tbody>
              ${stages.map(
                ({ name, time, gravity }, i) =>
                  html`<tr>
                    <th scope="row">${i + 1} ${name}</th>
                    <td>${shownTime(time)}</td>
                    <td>${quantity(gravity, "SG").slice(0, 6)}</td>
                  </tr>`,
              )}
            </tbody>
          </table>`
    }`;
}

function description({ readings, ahead }: Course): string {
  const [first, last] = [readings[0], readings.at(-1)];
  if (!first || !last) return "No readings.";
  const end = ahead.at(-1);
  const forecast = end ? ` Forecast to go on to ${end.gravity.toFixed(3)} by ${shownTime(end.time)}.` : "";
  return `Gravity from ${first.smooth.toFixed(3)} on ${shownTime(first.time)} to ${last.smooth.toFixed(3)} on ${shownTime(last.time)}, ${readings.length} readings.${forecast}`;
}

/** Spikes may lie far outside; the chart is scaled to the beer. */
function gravitySpan({ readings, ahead, stages }: Course): Extent {
  const shown = [
    ...readings.map(({ smooth }) => smooth),
    ...[...ahead, ...stages].map(({ gravity }) => gravity),
  ];
  return padded(extent(shown), 0.08, 0.002);
}

function picture(course: Course, temperatures: Temperatures | undefined): TemplateResult {
  const { readings, ahead, stages } = course;
  const degrees = readings.flatMap(({ time }, i) => {
    const value = temperatures?.[i];
    return value === undefined ? [] : [{ time, value }];
  });
  const right = WIDTH - (degrees.length > 0 ? 36 : 8);
  const times = padded(extent([...readings, ...ahead].map(({ time }) => time)), 0.02, 0.1);
  const [low, high] = gravitySpan(course);
  const [across, up] = [linearScale(times, LEFT, right), linearScale([low, high], BOTTOM, TOP)];
  const drawn = ({ time, gravity }: CoursePoint): Point => ({ x: across(time), y: up(gravity) });
  const inSight = readings.filter(({ gravity }) => gravity >= low && gravity <= high);
  const used = inSight.filter(({ setAside }) => setAside === undefined);
  const aside = inSight.filter(({ setAside }) => setAside !== undefined);
  return html`<svg
    class="chart"
    role="img"
    viewBox="0 0 ${WIDTH} ${HEIGHT}"
    aria-label=${description(course)}
  >
    ${roundTicks([low, high], 6).map(
      (value) =>
        svg`<path class="chart-grid" d="M${LEFT} ${up(value)}H${right}"></path>
          ${tickBefore(LEFT, up(value), value.toFixed(3))}`,
    )}
    ${timeTicks(times, 6).map((time) => tickBelow(across(time), BOTTOM, shownTick(time)))}
    <path class="chart-frame" d="M${LEFT} ${TOP}V${BOTTOM}H${right}"></path>
    ${stages.map(
      ({ time }, i) =>
        svg`<path class="chart-left" d="M${across(time)} ${TOP}V${BOTTOM}"></path>
          <text x=${across(time)} y=${TOP - 5} text-anchor="middle">${i + 1}</text>`,
    )}
    <path
      class=${many("chart-point", used)}
      d=${ringsPath(used.map(drawn), used.length > MANY ? 1.5 : 3)}
    ></path>
    <path
      class=${many("chart-out", aside)}
      d=${crossesPath(aside.map(drawn), aside.length > MANY ? 2 : 3.5)}
    ></path>
    ${degrees.length > 0 ? temperatureLine(degrees, across, right) : nothing}
    <path
      class="chart-line"
      d=${linePath(readings.map(({ time, smooth }) => drawn({ time, gravity: smooth })))}
    ></path>
    ${ahead.length > 0 ? svg`<path class="chart-line chart-ahead" d=${linePath(ahead.map(drawn))}></path>` : nothing}
  </svg>`;
}

/** Thinner lines if marks are close together. */
const many = (kind: string, marks: readonly unknown[]): string =>
  marks.length > MANY ? `${kind} chart-many` : kind;

/** The temperatures, with an axis of their own at the right. */
function temperatureLine(
  degrees: readonly { readonly time: number; readonly value: number }[],
  across: (time: number) => number,
  right: number,
): TemplateResult {
  const span = padded(extent(degrees.map(({ value }) => value)), 0.1, 2);
  const up = linearScale(span, BOTTOM, TOP);
  const path = linePath(degrees.map(({ time, value }) => ({ x: across(time), y: up(value) })));
  return svg`<path class="chart-frame" d="M${right} ${TOP}V${BOTTOM}"></path>
    ${roundTicks(span, 4).map(
      (value) =>
        svg`<path class="chart-frame" d="M${right} ${up(value)}h4"></path>
          <text x=${right + 7} y=${up(value) + 4}>${Number(value.toPrecision(4))}</text>`,
    )}
    <path class="chart-degrees" d=${path}></path>`;
}
