// The work form: more product lines, and the amount that was not typed. Without it the server says both.
const sheet = document.querySelector("[data-work]");
const lines = sheet.querySelector("[data-lines]");

const WAYS = {
  all: { g: "kg in all", ml: "litres in all" },
  m2: { g: "g/m²", ml: "ml/m²" },
  kg_m2: { g: "kg/m²", ml: "l/m²" },
  ha: { g: "kg/ha", ml: "l/ha" },
  mm: { g: "mm of sand", ml: "mm of sand" },
};

// Area of the chosen greens in m², or 0 where one is not known.
function area() {
  const chosen = [...sheet.querySelectorAll("[name=greens]:checked")];
  const known = chosen.map((box) => Number(box.dataset.areaDm2) / 100);
  return known.length && known.every(Boolean) ? known.reduce((sum, one) => sum + one, 0) : 0;
}

// Product on each m² in g or ml for what was typed.
function perSquareMetre(typed, way, m2, bulk) {
  const factor = { all: m2 ? 1000 / m2 : 0, m2: 1, kg_m2: 1000, ha: 0.1, mm: bulk * 1000 };
  return typed * factor[way];
}

function figure(number) {
  return new Intl.NumberFormat("en-GB", { maximumSignificantDigits: 4 }).format(number);
}

function sentence(rate, way, m2, option) {
  const { unit, nG, bulk } = option.dataset;
  const [large, small] = unit === "g" ? ["kg", "g"] : ["litres", "ml"];
  const said = [];
  if (way !== "all" && m2) said.push(`${figure((rate * m2) / 1000)} ${large} in all`);
  if (bulk && way !== "mm") said.push(`${figure(rate / 1000 / Number(bulk))} mm`);
  if (way !== "m2" && !bulk) said.push(`${figure(rate)} ${small}/m²`);
  if (bulk && way !== "kg_m2") said.push(`${figure(rate / 1000)} kg/m²`);
  if (Number(nG)) said.push(`${figure((rate * Number(nG)) / 100)} kg N/ha`);
  return said.length ? `That is ${said.join(", ")}.` : "";
}

function show(line) {
  const [label, amount, way] = ["label", "amount", "way"].map((name) => line.querySelector(`[name$=-${name}]`));
  const option = label.selectedOptions[0];
  [...way.options].forEach((one) => { one.textContent = WAYS[one.value][option.dataset.unit] || one.textContent; });
  const typed = Number(amount.value.replace(",", "."));
  const m2 = area();
  const rate = perSquareMetre(typed, way.value, m2, Number(option.dataset.bulk));
  line.querySelector("[data-other]").textContent = option.value && rate > 0 ? sentence(rate, way.value, m2, option) : "";
}

function showAll() {
  lines.querySelectorAll("[data-line]").forEach(show);
}

// The folded second line first, then new ones.
function addLine(button) {
  const second = lines.querySelector("[data-second]");
  if (second && second.hidden) {
    second.hidden = false;
    second.open = true;
    second.querySelector("select").focus();
    return;
  }
  const total = sheet.querySelector("[name=products-TOTAL_FORMS]");
  const number = Number(total.value);
  const holder = document.createElement("template");
  holder.innerHTML = lines.querySelector("template").innerHTML.replaceAll("__prefix__", String(number));
  lines.insertBefore(holder.content, lines.querySelector("template"));
  total.value = String(number + 1);
  button.hidden = number + 1 >= Number(lines.dataset.most);
  lines.querySelectorAll("[data-line]")[number].querySelector("select").focus();
}

if (lines) {
  const another = sheet.querySelector("[data-another]");
  const second = lines.querySelector("[data-second]");
  another.hidden = false;
  if (second) second.hidden = true;
  another.addEventListener("click", () => addLine(another));
  sheet.addEventListener("input", showAll);
  showAll();
}
