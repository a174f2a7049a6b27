# duskwire in a container: built in one Debian 12, run in another that holds nothing but the package made there.
#   docker build -t duskwire .
#   docker run --rm --network host -v "$PWD/gardens:/gardens" duskwire
# The host's network, since the server answers this computer alone (docs/decisions/0006). The folder has to be writable
# for the user 1000. tools/prove_fresh image runs these lines without docker.
FROM debian:12-slim AS build
WORKDIR /source
COPY . /source
RUN tools/make_deb

FROM debian:12-slim
COPY --from=build /source/build/package/ /tmp/package/
RUN apt-get update && apt-get install -y --no-install-recommends /tmp/package/*.deb && rm -rf /tmp/package /var/lib/apt/lists/*
RUN useradd --uid 1000 --create-home gardener && install -d -o gardener /gardens
USER gardener
WORKDIR /gardens
VOLUME /gardens
EXPOSE 7415
CMD ["duskwire", "serve", "--workspace", "/gardens/gardens.duskwire"]
