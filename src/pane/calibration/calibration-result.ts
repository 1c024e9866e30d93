import { html, nothing, type TemplateResult } from "lit";
import { calibrationChart } from "./calibration-chart.js";
import type { CalibrationFound } from "./calibration-method.js";
import { calibrationWarning } from "./calibration-words.js";
import { fixed, signed } from "../parts/number-text.js";

/**
 * The result of a calibration in words, as a chart and in numbers.
 *
 * @param numbers of the pairs, as shown on the screen
 */
export function calibrationResult(found: CalibrationFound, numbers: readonly number[]): TemplateResult {
  const { says, warnings, warned, figures, pairs, chart } = found;
  const out = new Set(warnings.flatMap((warning) => (warning.kind === "outlier" ? [warning.pair] : [])));
  const nameOf = (pair: number): string => `Pair ${numbers[pair] ?? "?"}`;
  const { decimals, readingDecimals, truth, unit } = figures;
  return html`<div role="status">
      ${says.map((line, i) => (i === 0 ? html`<p><strong>${line}</strong></p>` : html`<p>${line}</p>`))}
      ${
        warnings.length > 0
          ? html`<ul class="caution plain">
              ${warnings.map((warning) => html`<li>${calibrationWarning(warning, warned, nameOf)}</li>`)}
            </ul>`
          : nothing
      }
    </div>
    ${calibrationChart(chart, out, numbers)}
    <div class="result" role="region" aria-label="Pairs and what is left over" tabindex="0">
      <table class="figures" aria-label="Pairs and what is left over">
        <thead>
          <tr>
            <th scope="col">Pair</th>
            <th scope="col">Reading</th>
            <th scope="col">${truth}</th>
            <th scope="col">Calibrated</th>
            <th scope="col">Left over</th>
          </tr>
        </thead>
        <tbody>
          ${pairs.map(
            (pair, i) =>
              html`<tr>
                <th scope="row">
                  ${numbers[i]}${out.has(i) ? html` <span aria-hidden="true">×</span><span class="unseen"> stands out</span>` : nothing}
                </th>
                <td>${fixed(pair.reading, readingDecimals)}</td>
                <td>${fixed(pair.true, decimals)}</td>
                <td>${fixed(pair.fitted, decimals)}</td>
                <td>${signed(pair.residual, decimals)}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
    ${unit === "SG" ? nothing : html`<p class="hint">All but the reading in ${unit}.</p>`}`;
}
