FROM python:3.13-slim-bookworm AS build
COPY deploy/requirements.lock /build/requirements.lock
# The environment is made without pip and filled from outside, so that no installer is left in it.
RUN python -m venv --without-pip /opt/environment \
    && pip --python /opt/environment/bin/python install --no-cache-dir --no-compile --no-deps --only-binary :all: \
        --require-hashes -r /build/requirements.lock
COPY service /app/service
COPY deploy/gunicorn.conf.py deploy/patient_worker.py deploy/client_sockets.py /app/deploy/
# compiled here, because the running container writes nothing
RUN /opt/environment/bin/python -m compileall -q /opt/environment/lib /app

FROM python:3.13-slim-bookworm
LABEL org.opencontainers.image.title="Condensate drainage service" \
      org.opencontainers.image.description="Numbers, a verdict, findings with remedies for the wet side of cooling equipment" \
      org.opencontainers.image.licenses="LicenseRef-Proprietary"
RUN pip uninstall --yes --no-cache-dir pip
COPY --from=build /opt/environment /opt/environment
COPY --from=build /app /app
ENV PATH=/opt/environment/bin:$PATH \
    PYTHONDONTWRITEBYTECODE=1 \
    PYTHONUNBUFFERED=1 \
    BIND=0.0.0.0:8080
ARG REVISION=""
ENV REVISION=$REVISION
LABEL org.opencontainers.image.revision=$REVISION
WORKDIR /app
USER 10001:10001
EXPOSE 8080
STOPSIGNAL SIGTERM
HEALTHCHECK --interval=15s --timeout=5s --start-period=20s --retries=3 \
    CMD ["python", "-c", "import http.client, os, sys; c = http.client.HTTPConnection('127.0.0.1', int(os.environ['BIND'].rpartition(':')[2]), timeout=4); c.request('GET', '/readyz'); sys.exit(c.getresponse().status != 200)"]
CMD ["gunicorn", "-c", "deploy/gunicorn.conf.py", "service.app:create_app()"]
