// The public interface: `import { … } from "gylesheet"`.
export { convertGravity, platoFromSg, sgFromPlato, type GravityUnit } from "./gravity.js";
export { sgFromHydrometer, type HydrometerOptions } from "./hydrometer.js";
export {
  abvFromRefractometer,
  originalSgFromBoth,
  platoFromRefractometer,
  sgFromRefractometer,
  type RefractometerOptions,
} from "./refractometer.js";
export {
  abvFromGravities,
  abwFromGravities,
  apparentAttenuationPercent,
  finalSgFromAttenuation,
  realAttenuationPercent,
  realExtractPlato,
  type AlcoholMethod,
} from "./beer.js";
export { efficiencyPercent, maltExtractKg, wortExtractKg, type MaltYieldUnit } from "./brewhouse.js";
