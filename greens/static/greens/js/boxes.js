// More boxes without a round trip; without this file the button asks the server for them.
document.querySelectorAll("[data-more]").forEach((button) => {
  const form = button.closest("form");
  const boxes = form.querySelector("[data-boxes]");
  const pattern = boxes.querySelector("template");
  const counted = form.querySelector("[name=values_boxes]");

  // As many boxes as that in all, the pattern itself not counted.
  function haveBoxes(count) {
    for (let n = boxes.children.length; n <= count; n += 1) {
      const holder = document.createElement("template");
      holder.innerHTML = pattern.innerHTML.replaceAll("__n__", String(n));
      boxes.insertBefore(holder.content, pattern);
    }
    counted.value = String(boxes.children.length - 1);
  }

  function more() {
    const first = boxes.children.length;
    haveBoxes(first + 4);
    boxes.children[first - 1].querySelector("input").focus();
  }

  // Enter goes on to the next box; elsewhere in the form it keeps the set, as in any form.
  function next(event) {
    if (event.key !== "Enter" || !event.target.matches("input")) return;
    event.preventDefault();
    const inputs = [...boxes.querySelectorAll("input")];
    const after = inputs[inputs.indexOf(event.target) + 1];
    if (after) after.focus();
    else more();
  }

  button.type = "button";
  button.addEventListener("click", more);
  boxes.addEventListener("keydown", next);
  form.addEventListener("boxes", ({ detail }) => haveBoxes(detail));
});
