// Where on the green a value was taken: tapped on the outline, written in metres, or the phone's own place.
// The places live in one hidden field of the form, beside the boxes: [x, y] in metres or nothing.

// Metres to the right and up from the point the green was measured from.
export function placeOf(latitude, longitude, [latitude0, longitude0, bearing], degreeM) {
  const north = (latitude - latitude0) * degreeM;
  const east = (longitude - longitude0) * degreeM * Math.cos((latitude0 * Math.PI) / 180);
  const turn = (bearing * Math.PI) / 180;
  return [east * Math.cos(turn) - north * Math.sin(turn), north * Math.cos(turn) + east * Math.sin(turn)];
}

const form = document.querySelector("form[data-set]");
if (form) {
  const keypad = form.querySelector("[data-keypad]");
  const terms = JSON.parse(form.dataset.set);
  const find = (name) => keypad.querySelector(`[data-${name}]`);
  const [where, outline, x, y, here, nearness] = ["where", "outline", "x", "y", "here", "nearness"].map(find);
  const field = form.querySelector("[name=places]");
  const onGreen = () => terms.greens[form.dataset.green || form.querySelector("[name=green]").value];
  const places = () => JSON.parse(field.value || "[]");
  const shape = (name, values) => Object.entries(values).forEach(([key, value]) => name.setAttribute(key, value));
  let at = -1;

  function put(place) {
    [x.value, y.value] = place ? place.map((one) => one.toFixed(1)) : ["", ""];
    show();
  }

  // What stands in the two boxes, if it is a place.
  function typed() {
    const pair = [x, y].map((box) => (box.value.trim() ? Number(box.value.replace(",", ".").replace("−", "-")) : NaN));
    return pair.every(Number.isFinite) ? pair : null;
  }

  function keep(n, place) {
    const all = places();
    while (all.length <= n) all.push(null);
    all[n] = place;
    field.value = all.some(Boolean) ? JSON.stringify(all) : "";
  }

  // The outline, the places so far as rings, the one that is meant as a disc.
  function show() {
    const drawn = onGreen()?.outline;
    where.hidden = !drawn;
    if (!drawn) return;
    const [xs, ys] = [0, 1].map((n) => drawn.points_m.map((one) => one[n]));
    const [left, top] = [Math.min(...xs) - 2, -Math.max(...ys) - 2];
    shape(outline, { viewBox: `${left} ${top} ${Math.max(...xs) + 2 - left} ${2 - Math.min(...ys) - top}` });
    shape(outline.querySelector("polygon"), { points: drawn.points_m.map(([a, b]) => `${a},${-b}`).join(" ") });
    outline.querySelector("g").replaceChildren(...places().filter((one, n) => one && n !== at).map(ring));
    const place = typed();
    outline.querySelector(".where__place").toggleAttribute("hidden", !place);
    if (place) shape(outline.querySelector(".where__place"), { cx: place[0], cy: -place[1] });
    find("outline-words").textContent = `Optional. Tap the place; the outline is drawn ${drawn.words}.`;
    here.hidden = !(onGreen().origin && navigator.geolocation);
  }

  function ring([a, b]) {
    const circle = document.createElementNS("http://www.w3.org/2000/svg", "circle");
    shape(circle, { cx: a, cy: -b, r: 0.7 });
    return circle;
  }

  outline.addEventListener("click", ({ clientX, clientY }) => {
    const tapped = new DOMPoint(clientX, clientY).matrixTransform(outline.getScreenCTM().inverse());
    put([tapped.x, -tapped.y]);
  });

  here.addEventListener("click", () => {
    nearness.textContent = "Looking for this place.";
    navigator.geolocation.getCurrentPosition(({ coords }) => {
      put(placeOf(coords.latitude, coords.longitude, onGreen().origin, terms.degree_m));
      nearness.textContent = `Known to within ${Math.ceil(coords.accuracy)} m.`;
    }, () => { nearness.textContent = "The phone does not say where it is; tap the place instead."; }, { enableHighAccuracy: true, timeout: 15000 });
  });

  keypad.addEventListener("written", ({ detail }) => { keep(detail, typed()); put(null); });
  keypad.addEventListener("leftout", ({ detail }) => { keep(detail, null); put(null); });
  keypad.addEventListener("shown", ({ detail }) => {
    if (detail !== at) {
      at = detail;
      put(places()[at] || null);
    } else show();
  });
  [x, y].forEach((box) => box.addEventListener("input", show));
  form.addEventListener("reset", () => { field.value = ""; });
}
