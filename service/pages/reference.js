// What the service adds to the packaged bundle: drawings, reports, findings and problems are shown as what they are.
"use strict";

// the document with one path at most, and only the components that are referred to from there
function partOf(document, [section, name]) {
  if (section !== "paths" || !document.paths[name]) return document;
  const part = { ...document, paths: { [name]: document.paths[name] }, components: {} };
  const waiting = [part.paths[name]];
  while (waiting.length) {
    for (const [key, value] of Object.entries(waiting.pop())) {
      if (value && typeof value === "object") waiting.push(value);
      if (key !== "$ref" || typeof value !== "string") continue;
      const [, , kind, component] = value.split("/");
      const kept = part.components[kind] ??= {};
      if (component in kept) continue;
      kept[component] = document.components[kind][component];
      waiting.push(kept[component]);
    }
  }
  part.components.securitySchemes = document.components.securitySchemes;
  return part;
}

function additions(system) {
  const h = system.React.createElement;

  function elsewhere(address, words) {
    return h("a", { href: address, target: "_blank", rel: "noopener" }, words);
  }

  function Verdict({ answer }) {
    return h("section", { className: "said" },
      h("h5", null, "Verdict: " + answer.verdict),
      h("ul", null, answer.findings.map((finding, index) => h("li", { key: index },
        h("strong", null, finding.severity), ": ", finding.message, " ", finding.remedy, " (",
        elsewhere("/docs/findings#" + finding.code, finding.code), ")"))));
  }

  function Problem({ problem }) {
    return h("section", { className: "said" },
      h("h5", null, elsewhere(problem.type, problem.title)),
      h("p", null, problem.detail),
      h("ul", null, problem.errors.map((fault, index) => h("li", { key: index },
        h("code", null, fault.pointer || fault.parameter || fault.column || "body"), ": ", fault.detail))));
  }

  function said(content) {
    let answer;
    try {
      answer = JSON.parse(content);
    } catch {
      return null;
    }
    if (answer && answer.verdict && Array.isArray(answer.findings)) return h(Verdict, { answer });
    if (answer && Array.isArray(answer.errors)) return h(Problem, { problem: answer });
    return null;
  }

  function Drawing({ content }) {
    const source = "data:image/svg+xml," + encodeURIComponent(content);
    return h("section", { className: "said" }, h("h5", null, "Drawing"),
      h("img", { src: source, alt: "The drawing of this answer; its findings are written in it." }));
  }

  function Report({ content }) {
    return h("section", { className: "said" }, h("h5", null, "Report"),
      h("iframe", { srcDoc: content, sandbox: "", title: "The report, as a page" }));
  }

  function Paper({ content }) {
    const address = URL.createObjectURL(content);
    return h("section", { className: "said" }, h("h5", null, "Report"),
      h("a", { href: address, download: "report.pdf" }, "Save the report (PDF)"));
  }

  function responseBody(Bundled) {
    return function Body(props) {
      const type = props.contentType || "";
      if (type.includes("pdf")) return h(Paper, props);
      const bundled = h(Bundled, props);
      const shown = type.includes("svg") ? Drawing : type.includes("html") ? Report : null;
      if (shown) return h("div", null, h(shown, props), h("details", null, h("summary", null, "As text"), bundled));
      return h("div", null, type.includes("json") ? said(props.content) : null, bundled);
    };
  }

  // problems take a line each: the words lead to the page that explains them, the example is one step away
  function response(Bundled) {
    return function Row(props) {
      if (Number(props.code) < 400) return h(Bundled, props);
      const Markdown = props.getComponent("Markdown", true);
      const Code = props.getComponent("HighlightCode", true);
      const examples = props.response.getIn(["content", "application/problem+json", "examples"]);
      return h("tr", { className: "response", "data-code": props.code },
        h("td", { className: "response-col_status" }, props.code),
        h("td", { className: "response-col_description" },
          h(Markdown, { source: props.response.get("description") }),
          examples && h("details", null, h("summary", null, "Example"),
            examples.valueSeq().map((example, index) => h(Code, { key: index, language: "json" },
              JSON.stringify(example.get("value"), null, 2))))));
    };
  }

  // of a drawing, a report or a table the bundle would show the word "string" as its example
  function modelExample(Bundled) {
    return function Example(props) {
      const text = props.schema && props.schema.get && props.schema.get("type") === "string";
      const answers = props.specPath && props.specPath.includes("responses");
      return text && answers ? h("p", null, "Choose an example of the request and execute it; what comes is shown above.")
        : h(Bundled, props);
    };
  }

  // a link inside the button that opens an operation would stop the keyboard twice at each; the address still follows
  function DeepLink() {
    return ({ text }) => h("span", { className: "nostyle" }, h("span", null, text));
  }

  function InfoContainer(Bundled) {
    return (props) => h("header", { role: "banner" }, h(Bundled, props));
  }

  function operations(Bundled) {
    return function Operations(props) {
      return h("section", { className: "all" }, h("h2", null, "Operations"), h(Bundled, props));
    };
  }

  // the bundle reads the whole document anew for each part it needs; the part and what it refers to are enough
  const resolveSubtree = system.getSystem().fn.resolveSubtree;
  const resolvePart = (document, place, ...others) => resolveSubtree(partOf(document, place), place, ...others);

  return { fn: { resolveSubtree: resolvePart }, wrapComponents: { responseBody, response, modelExample, DeepLink, InfoContainer, operations } };
}

// names for what the bundle leaves without one, and the keyboard for what scrolls
function complete() {
  for (const text of document.querySelectorAll("textarea:not([aria-label])")) {
    text.setAttribute("aria-label", "Body of the request");
  }
  for (const choice of document.querySelectorAll("select:not([aria-label])")) {
    const parameter = choice.closest("tr[data-param-name]");
    const examples = choice.classList.contains("examples-select-element");
    const name = parameter && parameter.dataset.paramName;
    choice.setAttribute("aria-label", examples ? "Example" : name || "Media type");
  }
  for (const code of document.querySelectorAll("pre.microlight:not([tabindex]), .microlight pre:not([tabindex])")) {
    code.setAttribute("tabindex", "0");
  }
}

window.addEventListener("load", () => {
  SwaggerUIBundle({
    url: "/openapi.json",
    dom_id: "#reference",
    deepLinking: true,
    tryItOutEnabled: true,
    defaultModelsExpandDepth: 0,
    validatorUrl: null,
    syntaxHighlight: { theme: "obsidian" },
    plugins: [additions],
  });
  let asked = false;
  new MutationObserver(() => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      complete();
    });
  }).observe(document.getElementById("reference"), { childList: true, subtree: true });
});
