import { render } from "preact";

const root = document.getElementById("app");
if (root) render(<h1>Broodline</h1>, root);
