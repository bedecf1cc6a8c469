# SPDX-License-Identifier: Apache-2.0
"""What each kind of component is in a network, by the fluid that flows in it."""
