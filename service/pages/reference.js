window.addEventListener("load", function () {
  SwaggerUIBundle({
    url: "/openapi.json",
    dom_id: "#reference",
    deepLinking: true,
    tryItOutEnabled: true,
    defaultModelsExpandDepth: 0,
    validatorUrl: null
  });
});
