"""Debian packages whose files are read, of programs of every kind; fetched by the command, never stored.

None of them has to do with making or preparing prints.
"""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from pathlib import Path

PACKAGES = (
    "collectd-core",
    "emerald-themes",
    "fail2ban",
    "fluxbox",
    "freeciv-data",
    "freeradius-config",
    "geany-common",
    "icewm-common",
    "jetty9",
    "lightdm",
    "mc-data",
    "openvswitch-common",
    "plasma-desktop-data",
    "plymouth-themes",
    "qt5-style-kvantum-themes",
    "samba-common",
    "sawfish-themes",
    "scite",
    "supervisor",
    "systemd",
    "tuned",
    "uwsgi-core",
    "xfce4-settings",
)


def fetch(names: tuple[str, ...], place: Path) -> Iterator[Path]:
    """Download packages with apt and unpack each; a package that cannot be had is named and left out. Yields the
    folders.
    """
    for name in names:
        ran = subprocess.run(["apt-get", "download", name], cwd=place, capture_output=True, check=False)
        found = sorted(place.glob(f"{name}_*.deb"))
        if ran.returncode or not found:
            print(f"{name} could not be fetched: {ran.stderr.decode(errors='replace').strip()[-200:]}")
            continue
        folder = place / name
        subprocess.run(["dpkg-deb", "-x", str(found[0]), str(folder)], check=True)
        found[0].unlink()
        yield folder
