import { createRoot } from "react-dom/client";
import { begin } from "./api/session";
import { setState } from "./api/store";
import { App } from "./app";
import { keptScheme } from "./panels/common/scheme";
import "./style/page.css";

setState({ scheme: keptScheme() });
void begin();
const page = document.getElementById("page");
if (page) createRoot(page).render(<App />);
