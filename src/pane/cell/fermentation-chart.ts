import { html, nothing, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";
import uPlot from "uplot";
import type { Course } from "../../functions/fermentation-course.js";
import { quantity } from "./quantity.js";
import { shownDay, shownTime } from "./shown-time.js";

/** Temperatures beside the readings of a log, in the order of the cells; undefined where none was logged. */
export type Temperatures = readonly (number | undefined)[];

// uPlot has this enum in its types only.
// eslint-disable-next-line @typescript-eslint/no-unsafe-enum-assignment
const RIGHT = 1 as uPlot.Axis.Side;

const WIDTH = 300;
const HEIGHT = 240;
/** A fermentation as a picture, with its stages as a table beneath. */
export function fermentationChart(course: Course, temperatures: Temperatures | undefined): TemplateResult {
  const { stages, ahead, readings } = course;
  const aside = readings.filter(({ setAside }) => setAside !== undefined).length;
  return html`<div
      class="plot"
      role="img"
      aria-label=${description(course)}
      ${ref((element) => {
        // Its colours and its width come from the page, where it is only once this is over.
        if (element)
          requestAnimationFrame(() => {
            draw(element as HTMLElement, course, temperatures);
          });
      })}
    ></div>
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

type Column = (number | null)[];

/** What is drawn, over one common row of times. */
function columns({ readings, ahead }: Course, temperatures: Temperatures | undefined): uPlot.AlignedData {
  const rest: Column = ahead.map(() => null);
  const past: Column = readings.map(() => null);
  const used: Column = readings.map(({ gravity, setAside }) => (setAside ? null : gravity));
  const aside: Column = readings.map(({ gravity, setAside }) => (setAside ? gravity : null));
  const degrees: Column = temperatures ? readings.map((_, i) => temperatures[i] ?? null) : [];
  return [
    [...readings.map(({ time }) => time), ...ahead.map(({ time }) => time)],
    [...used, ...rest],
    [...aside, ...rest],
    [...readings.map(({ smooth }) => smooth), ...rest],
    [...past, ...ahead.map(({ gravity }) => gravity)],
    ...(temperatures ? [[...degrees, ...rest]] : []),
  ];
}

/** Spikes may lie far outside; the picture is for the beer. */
function gravityScale({ readings, ahead, stages }: Course): [number, number] {
  const all = [
    ...readings.map(({ smooth }) => smooth),
    ...[...ahead, ...stages].map(({ gravity }) => gravity),
  ];
  const [low, high] = [all.reduce((a, b) => Math.min(a, b)), all.reduce((a, b) => Math.max(a, b))];
  const room = Math.max((high - low) * 0.08, 0.001);
  return [low - room, high + room];
}

const drawn = new WeakMap<HTMLElement, { readonly of: Course; readonly with: Temperatures | undefined }>();

function draw(element: HTMLElement, course: Course, temperatures: Temperatures | undefined): void {
  const before = drawn.get(element);
  if (before?.of === course && before.with === temperatures) return;
  drawn.set(element, { of: course, with: temperatures });
  element.replaceChildren();
  const style = getComputedStyle(element);
  const ink = style.color;
  const line = style.getPropertyValue("--colorCompoundBrandStroke").trim() || ink;
  const grid = { stroke: style.borderTopColor, width: 1 };
  const font = `12px ${style.fontFamily}`;
  const points = (size: number, paths?: uPlot.Series.Points.PathBuilder): uPlot.Series.Points => ({
    show: true,
    size,
    width: 1,
    fill: "transparent",
    stroke: ink,
    ...(paths ? { paths } : {}),
  });
  const dense = course.readings.length > 150;
  new uPlot(
    {
      width: Math.max(element.clientWidth, WIDTH),
      height: HEIGHT,
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false },
        gravity: { range: () => gravityScale(course) },
        degrees: { range: (_, low, high) => [low - 1, high + 1] },
      },
      series: [
        {},
        { scale: "gravity", stroke: ink, paths: () => null, points: points(dense ? 3 : 6) },
        { scale: "gravity", stroke: ink, paths: () => null, points: points(7, crosses) },
        { scale: "gravity", stroke: line, width: 2, points: { show: false } },
        { scale: "gravity", stroke: line, width: 2, dash: [8, 5], points: { show: false } },
        ...(temperatures
          ? [
              {
                scale: "degrees",
                stroke: ink,
                width: 1.5,
                dash: [2, 3],
                spanGaps: true,
                points: { show: false },
              },
            ]
          : []),
      ],
      axes: [
        { stroke: ink, grid, font, ticks: grid, space: 60, values: (_, splits) => splits.map(shownDay) },
        {
          scale: "gravity",
          stroke: ink,
          grid,
          font,
          ticks: grid,
          size: 52,
          values: (_, splits) => splits.map((value) => value.toFixed(3)),
        },
        ...(temperatures
          ? [
              {
                scale: "degrees",
                side: RIGHT,
                stroke: ink,
                font,
                ticks: grid,
                size: 36,
                grid: { show: false },
              },
            ]
          : []),
      ],
      hooks: {
        draw: [
          (plot) => {
            markStages(plot, course, ink, font);
          },
        ],
      },
    },
    columns(course, temperatures),
    element,
  );
}

/** Crosses for what was set aside: no colour is needed to tell them from the rest. */
const crosses: uPlot.Series.Points.PathBuilder = (plot, seriesIndex) => {
  const path = new Path2D();
  const size = 4 * uPlot.pxRatio;
  const [times, values] = [plot.data[0], plot.data[seriesIndex]];
  const { min: least = -Infinity, max: most = Infinity } = plot.scales["gravity"] ?? {};
  for (const [i, value] of (values ?? []).entries()) {
    const time = times[i];
    if (value === null || value === undefined || time === undefined) continue;
    if (!(value >= least && value <= most)) continue; // beyond the picture
    const x = plot.valToPos(time, "x", true);
    const y = plot.valToPos(value, "gravity", true);
    path.moveTo(x - size, y - size);
    path.lineTo(x + size, y + size);
    path.moveTo(x - size, y + size);
    path.lineTo(x + size, y - size);
  }
  return { stroke: path, fill: new Path2D() };
};

/** An upright line for each stage, with its number at the top. */
function markStages(plot: uPlot, { stages }: Course, ink: string, font: string): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.strokeStyle = ink;
  ctx.fillStyle = ink;
  ctx.lineWidth = uPlot.pxRatio;
  ctx.font = font.replace(/^\d+/, (size) => String(Number(size) * uPlot.pxRatio));
  ctx.textAlign = "center";
  ctx.setLineDash([2 * uPlot.pxRatio, 4 * uPlot.pxRatio]);
  for (const [i, { time }] of stages.entries()) {
    const x = plot.valToPos(time, "x", true);
    ctx.beginPath();
    ctx.moveTo(x, bbox.top + 14 * uPlot.pxRatio);
    ctx.lineTo(x, bbox.top + bbox.height);
    ctx.stroke();
    ctx.fillText(String(i + 1), x, bbox.top + 11 * uPlot.pxRatio);
  }
  ctx.restore();
}
