// Controls smaller than a thumb.
() => [...document.querySelectorAll("button, select, input, textarea, a[href]")]
  .filter((e) => !e.closest(".skip, [hidden]"))
  .map((e) => { const b = e.getBoundingClientRect(); return [e.id || e.getAttribute("aria-label") || e.textContent, b.width, b.height]; })
  .filter((t) => t[1] < 43.99 || t[2] < 43.99)
