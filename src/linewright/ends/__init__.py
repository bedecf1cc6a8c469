# SPDX-License-Identifier: Apache-2.0
"""One half of a connection: how it is written, what it seals with, how it is told."""
