// More boxes without a round trip; without this file the button asks the server for them.
document.querySelectorAll("[data-more]").forEach((button) => {
  const boxes = button.closest("form").querySelector("[data-boxes]");
  const pattern = boxes.querySelector("template").innerHTML;
  const counted = button.closest("form").querySelector("[name=values_boxes]");
  button.addEventListener("click", (event) => {
    event.preventDefault();
    const first = boxes.children.length;
    for (let n = first; n < first + 5; n += 1) {
      const holder = document.createElement("template");
      holder.innerHTML = pattern.replaceAll("__n__", String(n));
      boxes.insertBefore(holder.content, boxes.querySelector("template"));
    }
    counted.value = String(boxes.children.length - 1);
    boxes.children[first - 1].querySelector("input").focus();
  });
});
