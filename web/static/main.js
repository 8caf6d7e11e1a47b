// The pages work without scripts; these make answers follow what is typed and pictures readable by hand and key.
import { rememberWho } from "./who.js";
import { followFigures } from "./figures.js";
import { readMaps } from "./pedalmap.js";
import { openParts } from "./loadpath.js";
import { showServed } from "./strip.js";
import { pointAtFaults } from "./newcar.js";

document.documentElement.classList.add("scripted");
rememberWho();
pointAtFaults();
if (document.getElementById("figures")) {
  followFigures();
  const attach = () => { readMaps(); openParts(); showServed(); };
  document.addEventListener("answers-shown", attach);
  attach();
}
