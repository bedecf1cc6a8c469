# SPDX-License-Identifier: Apache-2.0
"""Where things are: ports, bodies, and the geometry of hoses between them."""
