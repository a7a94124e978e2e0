// A copy knows no step and no green of its own: what the address says is written into its form, its green
// for good: a form that was kept and is empty again is still about it.
export function prefill() {
  const form = document.querySelector("form[data-pocket][data-takes-green]");
  if (!form) return;
  const asked = new URLSearchParams(location.search);
  const green = asked.get("green") || location.pathname.match(/\/greens\/(\d+)\//)?.[1];
  const boxes = [...form.querySelectorAll("[name=greens], input[name=green]")].filter((box) => box.value === green);
  boxes.forEach((box) => { box.checked = box.defaultChecked = true; });
  const options = [...form.querySelectorAll("select[name=green] option")].filter((one) => one.value === green);
  options.forEach((one) => { one.selected = one.defaultSelected = true; });
  const step = asked.get("step");
  form.querySelectorAll("[name=answers]").forEach((box) => { if (step && box.value.endsWith(`:${step}`)) box.checked = true; });
  form.dispatchEvent(new Event("input", { bubbles: true }));
}
