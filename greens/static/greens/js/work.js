// The work form: more product lines, and the amount that was not typed. Without it the server says both.
const sheet = document.querySelector("[data-work]");
const lines = sheet.querySelector("[data-lines]");

// Words of each way to give an amount, and how many stored units (kg, g/m², kg/m², kg/ha, mm) one of it is.
const LB = 0.45359237, GAL = 3.785411784, FT2 = 0.09290304, ACRE = 4046.8564224, IN = 25.4;
const METRIC = {
  all: { g: ["kg in all", 1], ml: ["litres in all", 1] },
  m2: { g: ["g/m²", 1], ml: ["ml/m²", 1] },
  kg_m2: { g: ["kg/m²", 1], ml: ["l/m²", 1] },
  ha: { g: ["kg/ha", 1], ml: ["l/ha", 1] },
  mm: { g: ["mm of sand", 1], ml: ["mm of sand", 1] },
  nitrogen: { g: ["kg N/ha", 1], ml: ["kg N/ha", 1] },
};
const US = {
  all: { g: ["lb in all", LB], ml: ["US gal in all", GAL] },
  m2: { g: ["lb/1,000 ft²", LB / FT2], ml: ["US fl oz/1,000 ft²", GAL / 128 / FT2] },
  kg_m2: { g: ["lb/1,000 ft²", LB / FT2 / 1000], ml: ["US gal/1,000 ft²", GAL / FT2 / 1000] },
  ha: { g: ["lb/acre", (LB / ACRE) * 10000], ml: ["US gal/acre", (GAL / ACRE) * 10000] },
  mm: { g: ["in of sand", IN], ml: ["in of sand", IN] },
  nitrogen: { g: ["lb N/1,000 ft²", (LB / FT2) * 10], ml: ["lb N/1,000 ft²", (LB / FT2) * 10] },
};
const WAYS = sheet.dataset.work === "us" ? US : METRIC;

// Area of the chosen greens in m², or 0 where one is not known.
function area() {
  const chosen = [...sheet.querySelectorAll("[name=greens]:checked")];
  const known = chosen.map((box) => Number(box.dataset.areaDm2) / 100);
  return known.length && known.every(Boolean) ? known.reduce((sum, one) => sum + one, 0) : 0;
}

// Product on each m² in g or ml for what was typed.
function perSquareMetre(typed, way, m2, { unit, bulk }) {
  const stored = { all: m2 ? 1000 / m2 : 0, m2: 1, kg_m2: 1000, ha: 0.1, mm: Number(bulk) * 1000 };
  return typed * (unit ? WAYS[way][unit][1] : 1) * stored[way];
}

function figure(number) {
  return new Intl.NumberFormat("en-GB", { maximumSignificantDigits: 4 }).format(number);
}

function sentence(rate, way, m2, option) {
  const { unit, nG, bulk } = option.dataset;
  const inWords = (one, stored) => `${figure(stored / WAYS[one][unit][1])} ${WAYS[one][unit][0]}`;
  const said = [];
  if (way !== "all" && m2) said.push(inWords("all", (rate * m2) / 1000));
  if (bulk && way !== "mm") said.push(inWords("mm", rate / 1000 / Number(bulk)));
  if (!["m2", "kg_m2"].includes(way) && !bulk) said.push(inWords("m2", rate));
  if (bulk && way !== "kg_m2") said.push(inWords("kg_m2", rate / 1000));
  if (Number(nG)) said.push(inWords("nitrogen", (rate * Number(nG)) / 100));
  return said.length ? `That is ${said.join(", ")}.` : "";
}

// What each of several chosen greens has of it, by area: "Fourth 27 kg, Seventh 22.5 kg; 49.5 kg in all".
function shares(rate, { unit }) {
  const chosen = [...sheet.querySelectorAll("[name=greens]:checked")];
  if (chosen.length < 2) return "";
  const [words, stored] = WAYS.all[unit];
  const named = chosen.map((box) => [box.closest("label").textContent.trim(), Number(box.dataset.areaDm2) / 100]);
  const unknown = named.filter(([, m2]) => !m2).map(([name]) => name);
  if (unknown.length) return ` Not known: the area of ${unknown.join(", ")}.`;
  const said = (m2) => `${figure((rate * m2) / 1000 / stored)} ${words.replace(" in all", "")}`;
  return ` ${named.map(([name, m2]) => `${name} ${said(m2)}`).join(", ")}; ${said(area())} in all.`;
}

function show(line) {
  const [label, amount, way] = ["label", "amount", "way"].map((name) => line.querySelector(`[name$=-${name}]`));
  const option = label.selectedOptions[0];
  [...way.options].forEach((one) => { one.textContent = WAYS[one.value][option.dataset.unit]?.[0] || one.textContent; });
  const typed = Number(amount.value.replace(",", "."));
  const m2 = area();
  const rate = perSquareMetre(typed, way.value, m2, option.dataset);
  line.querySelector("[data-other]").textContent = option.value && rate > 0 ? sentence(rate, way.value, m2, option) + shares(rate, option.dataset) : "";
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
  sheet.querySelector("[data-work-out]").hidden = true;
  const another = sheet.querySelector("[data-another]");
  const second = lines.querySelector("[data-second]");
  another.hidden = false;
  if (second) second.hidden = true;
  another.addEventListener("click", () => addLine(another));
  sheet.addEventListener("input", showAll);
  showAll();
}
