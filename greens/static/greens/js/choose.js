// All greens or none without a round trip; without this file the links ask the server for them.
document.querySelectorAll("[data-choose]").forEach((link) => {
  link.addEventListener("click", (event) => {
    event.preventDefault();
    const boxes = link.closest("form").querySelectorAll("[name=greens]");
    boxes.forEach((box) => { box.checked = link.dataset.choose === "all"; });
    boxes[0]?.dispatchEvent(new Event("input", { bubbles: true }));
  });
});
