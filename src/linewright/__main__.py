# SPDX-License-Identifier: Apache-2.0
"""``python -m linewright``."""

from linewright.faces.cli.main import run

if __name__ == "__main__":
    run()
