import "@fontsource/bitter/latin-600.css";
import "@fontsource/sofia-sans/latin-400.css";
import "@fontsource/sofia-sans/latin-600.css";
import "./style/tokens.css";
import "./style/page.css";
import "./style/drawing.css";
import "./style/slip.css";
import "./style/gate.css";
import "./style/words.css";

import { render } from "preact";

import { heard, start } from "./model/bench";
import { AwayError } from "./server";
import { Page } from "./page";
import { meet } from "./share/sharing";

const root = document.getElementById("page");
if (root !== null) render(<Page />, root);
void meet();
// whoever asks and gets no answer: the page says so in one place
addEventListener("unhandledrejection", (event) => {
  if (!(event.reason instanceof AwayError)) return;
  event.preventDefault();
  heard.value = false;
});
void start();
