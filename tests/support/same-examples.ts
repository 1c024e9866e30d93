// For the coverage of the core: with new examples each time, a rare branch would be met by most runs but not by all.
import fc from "fast-check";

fc.configureGlobal({ seed: 1 });
