// Writing what was kept into a form again.
const MOST_LINES = 12;
const TICKED = ["checkbox", "radio"];

export function fill(form, fields) {
  const valuesOf = (wanted) => fields.filter(([name]) => name === wanted).map(([, value]) => value);
  wantLines(form, valuesOf("products-TOTAL_FORMS")[0]);
  form.dispatchEvent(new CustomEvent("boxes", { detail: valuesOf("values").length }));
  const boxes = [...form.elements].filter((box) => box.name && box.type !== "file" && box.type !== "submit");
  boxes.filter((box) => TICKED.includes(box.type)).forEach((box) => { box.checked = valuesOf(box.name).includes(box.value); });
  for (const name of new Set(fields.map((field) => field[0]))) {
    const written = boxes.filter((box) => box.name === name && !TICKED.includes(box.type));
    valuesOf(name).forEach((value, place) => { if (written[place]) written[place].value = value; });
  }
  openFolded(form);
  form.dispatchEvent(new Event("input", { bubbles: true }));
}

// Product lines that the page does not show yet.
function wantLines(form, total) {
  const another = form.querySelector("[data-another]");
  const isThere = () => form.elements.namedItem(`products-${Number(total) - 1}-label`);
  for (let n = 0; total && another && n < MOST_LINES && !isThere(); n += 1) another.click();
}

function openFolded(form) {
  const isWritten = (box) => (TICKED.includes(box.type) ? box.checked : box.type !== "hidden" && box.type !== "file" && box.value);
  form.querySelectorAll("details").forEach((one) => {
    one.open ||= [...one.querySelectorAll("input, select, textarea")].some(isWritten);
  });
}
