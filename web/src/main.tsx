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

import { start } from "./model/bench";
import { Page } from "./page";
import { meet } from "./share/sharing";

const root = document.getElementById("page");
if (root !== null) render(<Page />, root);
void meet();
void start();
